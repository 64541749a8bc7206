// What differs between two texts, line by line.

export interface LineChange {
  /** Counted from 1, in the text before; of added lines the one before which they stand. */
  readonly line: number;
  readonly before: readonly string[];
  readonly after: readonly string[];
}

/** Longest common subsequence of what is left between equal heads and tails, as pairs of indices. */
function commonLines(a: readonly string[], b: readonly string[]): [number, number][] {
  const rows = a.length + 1;
  const columns = b.length + 1;
  const length = new Uint32Array(rows * columns);
  const at = (i: number, j: number) => length[i * columns + j] as number;
  for (let i = a.length - 1; i >= 0; i -= 1) {
    for (let j = b.length - 1; j >= 0; j -= 1) {
      length[i * columns + j] =
        a[i] === b[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
    }
  }
  const pairs: [number, number][] = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    if (a[i] === b[j]) {
      pairs.push([i, j]);
      i += 1;
      j += 1;
    } else if (at(i + 1, j) >= at(i, j + 1)) {
      i += 1;
    } else {
      j += 1;
    }
  }
  return pairs;
}

export function lineChanges(before: string, after: string): LineChange[] {
  const a = before.split("\n");
  const b = after.split("\n");
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head += 1;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a.at(-1 - tail) === b.at(-1 - tail)) {
    tail += 1;
  }
  const middleA = a.slice(head, a.length - tail);
  const middleB = b.slice(head, b.length - tail);
  const changes: LineChange[] = [];
  let i = 0;
  let j = 0;
  for (const [nextA, nextB] of [
    ...commonLines(middleA, middleB),
    [middleA.length, middleB.length] as [number, number],
  ]) {
    if (nextA > i || nextB > j) {
      changes.push({
        line: head + i + 1,
        before: middleA.slice(i, nextA),
        after: middleB.slice(j, nextB),
      });
    }
    i = nextA + 1;
    j = nextB + 1;
  }
  return changes;
}
