// Keys that work everywhere on the page.

export interface PageKeys {
  readonly undo: () => void;
  readonly redo: () => void;
  readonly save: () => void;
}

/** While a text is being written, undo is the text field's own. */
function ownsUndo(target: EventTarget | null): boolean {
  if (target instanceof HTMLTextAreaElement) return true;
  return target instanceof HTMLInputElement && target.type === "text";
}

export function onKeys(keys: PageKeys): void {
  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    if (key === "s") {
      event.preventDefault();
      keys.save();
      return;
    }
    if (ownsUndo(event.target)) return;
    if (key === "z") {
      event.preventDefault();
      if (event.shiftKey) keys.redo();
      else keys.undo();
    } else if (key === "y") {
      event.preventDefault();
      keys.redo();
    }
  });
}
