/**
 * Runs one asking at a time and keeps one more waiting, the newest: for what is asked once per frame, where an answer
 * to an older question is of no use any more. Gives undefined where a newer one took the place.
 *
 * What is waiting is asked only when it is its turn, so that it sees the desk as it then is.
 */
export function newestOnly<A>(): (ask: () => Promise<A>) => Promise<A | undefined> {
  type Waiting = { ask: () => Promise<A>; settle: (answer: Promise<A> | undefined) => void };
  let busy = false;
  let waiting: Waiting | undefined;

  function run(ask: () => Promise<A>): Promise<A> {
    busy = true;
    const answer = ask();
    const next = () => {
      busy = false;
      const turn = waiting;
      waiting = undefined;
      if (turn) turn.settle(run(turn.ask));
    };
    answer.then(next, next);
    return answer;
  }

  return (ask) => {
    if (!busy) return run(ask);
    waiting?.settle(undefined);
    return new Promise((settle) => {
      waiting = { ask, settle };
    });
  };
}
