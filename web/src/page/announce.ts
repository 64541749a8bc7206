// For screen readers: what a picture shows, said once the slider has come to rest.

import { html, setText } from "./dom.ts";

const kRest_ms = 700;

export class Announcer {
  readonly element = html("p", { class: "unseen", role: "status" });
  private timer: ReturnType<typeof setTimeout> | undefined;

  /** What was said may no longer be in the reader's unit. */
  clear(): void {
    clearTimeout(this.timer);
    setText(this.element, "");
  }

  say(text: string): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => setText(this.element, text), kRest_ms);
  }
}
