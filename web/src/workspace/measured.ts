// The room that elements have, known without asking: asking in the middle of a redraw would make the browser lay out the page anew.

export interface Room {
  readonly width: number;
  readonly height: number;
}

const kNone: Room = { width: 0, height: 0 };

/** Keeps the inner size of elements, and calls back when one of them has another. */
export class Measured {
  private readonly rooms = new Map<Element, Room>();
  private readonly observer: ResizeObserver;

  constructor(changed: () => void) {
    this.observer = new ResizeObserver((entries) => {
      for (const { target, contentRect } of entries) {
        this.rooms.set(target, { width: contentRect.width, height: contentRect.height });
      }
      changed();
    });
  }

  watch(element: Element): void {
    this.observer.observe(element);
  }

  forget(element: Element): void {
    this.observer.unobserve(element);
    this.rooms.delete(element);
  }

  /** Nothing while the element is not on the page. */
  of(element: Element): Room {
    return this.rooms.get(element) ?? kNone;
  }
}
