// Holds the state and tells who listens when it is another.

import type { Action } from "./reduce.ts";
import { reduce } from "./reduce.ts";
import type { State } from "./state.ts";

export class Store {
  private listeners: ((state: State, before: State) => void)[] = [];

  constructor(private current: State) {}

  get state(): State {
    return this.current;
  }

  dispatch(action: Action): void {
    const before = this.current;
    this.current = reduce(before, action);
    if (this.current === before) return;
    for (const listener of this.listeners) listener(this.current, before);
  }

  listen(listener: (state: State, before: State) => void): void {
    this.listeners.push(listener);
  }
}
