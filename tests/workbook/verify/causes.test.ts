import { describe, expect, it } from "vitest";
import { gatherByCause, joinPlaces, type Cause } from "../../../src/workbook/verify/causes";
import { reviewAsText } from "../../../src/workbook/verify/print";
import { type Verification, verifyWorkbook } from "../../../src/workbook/verify/verify";
import { stored } from "../../samples/workbook";
import { slow } from "../../time-outs";
import { addIn, Tampered } from "./tampered";

const day = new Date("2026-11-02T09:00:00Z");

function review(plant: (workbook: Tampered) => void, recalculated = true): Verification {
  const workbook = new Tampered(stored);
  plant(workbook);
  return verifyWorkbook(workbook.open(recalculated), addIn, day);
}

const listCauses = ({ findings }: Verification): Cause[] =>
  gatherByCause(findings).filter(({ severity }) => severity !== "note");

const typeFlows = (workbook: Tampered): void => {
  for (let row = 24; row <= 33; row++) workbook.put(["Depressurization", `L${row}`], 80 - 5 * (row - 24));
};

describe("findings by cause", { timeout: slow }, () => {
  it("tells flows typed over once, with what follows from them", () => {
    const [cause, ...more] = listCauses(review(typeFlows));
    expect(more).toEqual([]);
    expect(cause?.first).toMatchObject({ kind: "formula overwritten", place: "Depressurization!L24" });
    expect(joinPlaces(cause?.same.map(({ place }) => place) ?? [])).toEqual(["Depressurization!L25:L33"]);
    expect(cause?.related.map(({ kind }) => kind)).toContain("runs differ");
    expect(cause?.severity).toBe("error");
  });

  it("tells errors under the reading that makes them", () => {
    const [cause, ...more] = listCauses(review((workbook) => workbook.put(["Depressurization", "D27"], 50.4)));
    expect(more).toEqual([]);
    expect(cause?.first).toMatchObject({ kind: "sign of the readings", figure: { unit: "Pa" } });
    expect(new Set(cause?.related.map(({ kind }) => kind))).toEqual(new Set(["error value"]));
  });

  it("tells old results, and the result that no test gives, under the cell typed over", () => {
    const causes = listCauses(review((workbook) => workbook.put(["Results", "F38"], 0.4), false));
    const typed = causes.find(({ first }) => first.place === "Results!F38");
    const places = [...(typed?.same ?? []), ...(typed?.related ?? [])].map(({ kind }) => kind);
    expect(places).toContain("old result");
    expect(causes.flatMap(({ first }) => (first.kind === "old result" ? [first.place] : []))).toEqual([]);
  });

  it("keeps two causes apart", () => {
    const causes = listCauses(
      review((workbook) => {
        typeFlows(workbook);
        workbook.put(["Rooms", "F8"], 15);
      }),
    );
    const firsts = causes.map(({ first }) => first.place);
    expect(firsts).toHaveLength(2);
    expect(new Set(firsts)).toEqual(new Set(["Depressurization!L24", "Rooms!F8"]));
  });

  it("counts causes, and lists every finding when asked to", () => {
    const verification = review(typeFlows);
    const report = { file: "house.xlsx", status: "reviewed", verification } as const;
    const gathered = reviewAsText(report, false, false).join("\n");
    const listed = reviewAsText(report, true, false).join("\n");
    expect(gathered).toMatch(/errors.*, from 1 cause\./);
    expect(gathered).toContain("The same in Depressurization!L25:L33.");
    expect(gathered).toContain("Figure: indicated flow, no. 1, m³/h");
    expect(listed.match(/ERROR {2}formula overwritten/g)).toHaveLength(10);
  });
});

describe("places in a list", () => {
  it("joins cells that touch, and leaves names and other sheets as they are", () => {
    expect(joinPlaces(["A!B3", "A!B2", "'My sheet'!C1", "A!B4", "the workbook"])).toEqual([
      "A!B2:B4",
      "'My sheet'!C1",
      "the workbook",
    ]);
  });
});
