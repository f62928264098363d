import { describe, expect, test } from "vitest";
import { standards, techniqueOf } from "../../src/core";
import { referenceCoefficient, testResult } from "../../src/functions";
import { column } from "./errors";

const run = (...settings: [string, unknown][]): unknown[][] =>
  testResult(
    "depressurization",
    column(-61.3, -51.3, -41.3, -31.3, -21.3),
    column(574, 500, 441, 371, 281),
    column(-1.3),
    column(-1.3),
    [
      ["volume", 400],
      ["flow basis", "actual at the fan"],
      ["indoor temperature", 21],
      ["outdoor temperature", -3],
      ...settings,
    ],
  );
const row = (table: unknown[][], symbol: string) => table.find((cells) => cells[1] === symbol) ?? [];

describe("the standard chosen", () => {
  test.each(standards)("%s stands in the table of TESTRESULT and is what its rows name", (standard) => {
    const table = run(["standard", standard.toLowerCase()]);
    expect(row(table, "standard")[2]).toBe(standard);
    expect(table).toHaveLength(41);
    // Profiles for one point and for several share the name of their edition.
    const name = {
      "US Army Corps": "US Army Corps protocol",
      "CGSB 149.10": "CAN/CGSB-149.10-M86 (superseded)",
      "CGSB 149.10-2019": "CAN/CGSB-149.10-2019",
      "CGSB 149.10-2019 one-point": "CAN/CGSB-149.10-2019",
      "RESNET/ICC 380": "ANSI/RESNET/ICC 380-2019",
      "RESNET/ICC 380 multi-point": "ANSI/RESNET/ICC 380-2019",
    };
    const shown = standard in name ? name[standard as keyof typeof name] : standard;
    for (const symbol of ["count", "dp0", "C_L", "q50"]) expect(row(table, symbol)[6]).toContain(shown);
    // Its clause by number where that is known, else by subject.
    expect(row(table, "count")[6]).toMatch(standard === "ISO 9972" ? /, 6$/ : /, procedure$/);
    if (standard !== "ISO 9972") {
      const others = table.filter((cells) => String(cells[6]).startsWith("ISO 9972"));
      expect(others.map((cells) => cells[1])).toEqual(["rho_i", "rho_e"]);
    }
  });

  test("with ASTM E779, E3158 and the army protocol the viscosity counts, with the others only the density", () => {
    const at = (standard: string) =>
      Number(
        referenceCoefficient([[40]], [[0.65]], "depressurization", [[21]], [[-3]], [["standard", standard]])[0]?.[0],
      );
    const viscous = standards.filter((standard) => at(standard) !== at("ISO 9972"));
    expect(viscous).toEqual(["ASTM E779", "ASTM E3158", "US Army Corps"]);
    expect(new Set(viscous.map(at)).size).toBe(1);
  });

  test("its technique is used where the tester chose none, and is named beside the line", () => {
    expect(standards.filter((standard) => techniqueOf(standard) !== "ordinary")).toEqual([
      "CGSB 149.10",
      "CGSB 149.10-2019",
    ]);
    const plain = run();
    const cgsb = run(["standard", "CGSB 149.10"]);
    expect(row(cgsb, "n")[2]).not.toBe(row(plain, "n")[2]);
    expect(row(cgsb, "n")[6]).toBe('technique "weighted", CAN/CGSB-149.10-M86 (superseded)');
    const chosen = run(["standard", "CGSB 149.10"], ["technique", "ordinary"]);
    expect(row(chosen, "n").slice(2, 5)).toEqual(row(plain, "n").slice(2, 5));
    expect(row(run(["technique", "organic correlation"]), "n")[6]).toBe('technique "organic correlation"');
  });
});
