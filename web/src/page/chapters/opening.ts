// A chapter that stands in the page with its words, and gets its pictures when it is opened.

export interface Opening {
  readonly element: HTMLElement;
  open(): Promise<void>;
}
