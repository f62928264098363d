/** Actions one after the other, each beginning when the one before has ended, well or badly. */
export class Turns {
  private last: Promise<unknown> = Promise.resolve();

  take<Result>(action: () => Promise<Result>): Promise<Result> {
    const result = this.last.then(action);
    this.last = result.catch(() => undefined);
    return result;
  }
}
