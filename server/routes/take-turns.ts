/** Does one piece of work after the other, in the order asked for: who waits holds nothing yet of what the work needs. */
export function takeTurns() {
  let last: Promise<unknown> = Promise.resolve();
  return <T>(work: () => Promise<T>): Promise<T> => {
    const own = last.then(work);
    last = own.catch(() => undefined);
    return own;
  };
}
