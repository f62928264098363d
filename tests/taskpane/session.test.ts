import { describe, expect, it } from "vitest";
import type { WorkbookPort } from "../../src/taskpane/port/port";
import { Session } from "../../src/taskpane/session";
import type { Conversation } from "../../src/views/conversation";

const tick = () => new Promise((done) => setTimeout(done, 0));

/** A workbook with a version instead of content; readings and reviews end when the test says so. */
function open() {
  const workbook = { version: 1, reads: 0, held: 0 };
  const readings: (() => void)[] = [];
  const reviews: (() => void)[] = [];
  const port = {
    read: () => {
      workbook.reads += 1;
      const bytes = workbook.version;
      return new Promise((done) => readings.push(() => done({ name: "book.xlsx", bytes })));
    },
  } as unknown as WorkbookPort;
  const desk = {
    ask: (_: string, given: readonly unknown[]) => Promise.resolve((workbook.held = given[2] as number)),
  } as unknown as Conversation;
  const reviewer = {
    ask: (_: string, given: readonly unknown[]) =>
      new Promise((done) => reviews.push(() => done({ answer: `of version ${String(given[1])}` }))),
  } as unknown as Conversation;
  const session = new Session(port, desk, reviewer);
  return { workbook, session, readings, reviews };
}

describe("what is known of the workbook", () => {
  it("is read once while changes are heard, and again after one", async () => {
    const { workbook, session, readings } = open();
    session.hear(true);
    const [first, second] = [session.open(), session.open()];
    await tick();
    readings.shift()!();
    expect(await Promise.all([first, second, session.open()])).toEqual([1, 1, 1]);
    workbook.version = 2;
    session.forget();
    const third = session.open();
    await tick();
    readings.shift()!();
    expect(await third).toBe(2);
    expect(workbook.reads).toBe(2);
  });

  it("is read each time while nothing tells of changes, and anew after the pane was hidden", async () => {
    const { workbook, session, readings } = open();
    for (const version of [1, 2]) {
      workbook.version = version;
      const answer = session.open();
      await tick();
      readings.shift()!();
      expect(await answer).toBe(version);
    }
    session.hear(true);
    for (const [heard, version] of [
      [true, 2],
      [false, 3],
      [true, 4],
    ] as const) {
      if (version > 2) session.hear(heard);
      workbook.version = version;
      const answer = session.open();
      await tick();
      readings.shift()!();
      expect(await answer).toBe(version);
    }
  });

  it("is the last reading, however long an earlier one takes, and the desk holds the same", async () => {
    const { workbook, session, readings } = open();
    session.hear(true);
    const early = session.open();
    await tick();
    workbook.version = 2;
    session.forget();
    const late = session.open();
    await tick();
    // The second begins when the first is done: Excel hands out two copies of the file at most.
    expect(workbook.reads).toBe(1);
    readings.shift()!();
    expect(await early).toBe(1);
    await tick();
    readings.shift()!();
    expect(await late).toBe(2);
    expect(workbook.held).toBe(2);
    expect(session.isOutdated).toBe(false);
  });

  it("is outdated where a change came while it was read", async () => {
    const { workbook, session, readings } = open();
    session.hear(true);
    const answer = session.open();
    await tick();
    workbook.version = 2;
    session.forget();
    readings.shift()!();
    expect(await answer).toBe(1);
    expect(session.isOutdated).toBe(true);
  });
});

describe("a review", () => {
  it.each([false, true])("says whether the workbook changed meanwhile: %s", async (changes) => {
    const { session, readings, reviews } = open();
    session.hear(true);
    const review = session.review(() => undefined);
    await tick();
    readings.shift()!();
    await tick();
    if (changes) session.forget();
    reviews.shift()!();
    expect(await review).toEqual({ review: "of version 1", isOutdated: changes });
  });
});
