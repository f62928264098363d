import { put, type Cells } from "../bare";
import * as firms from "./books";
import { figure, formula, results, type Sheets } from "./pieces";

/** One thing that a person changes in an honest workbook whose house fails, and the cells one of which a review must name. */
export interface Trick {
  readonly kind: string;
  readonly name: string;
  readonly firm: firms.Firm;
  readonly cells: readonly string[];
  /** Another package, for tricks outside the cells. */
  readonly finish?: (xml: string, sheet: string) => string;
}

function trick(
  kind: string,
  name: string,
  cells: string | readonly string[],
  make: () => firms.Firm,
  change: (sheets: Sheets) => void | string,
): Trick {
  const firm = make();
  const names = change(firm.sheets);
  const more = typeof names === "string" ? { ...firm.more, workbook: names } : firm.more;
  return {
    kind,
    name,
    cells: typeof cells === "string" ? [cells] : cells,
    firm: more ? { sheets: firm.sheets, more } : firm,
  };
}

const at = (sheets: Sheets, sheet: string): Cells => {
  const cells = sheets[sheet];
  if (!cells) throw new Error(`no sheet ${sheet}`);
  return cells;
};

const text = (cells: Cells, address: string): string => {
  const cell = cells[address];
  if (typeof cell !== "object") throw new Error(`no formula in ${address}`);
  return cell.f;
};

/** Replaces part of a formula; what is not there is a fault of the test. */
function rewrite(cells: Cells, address: string, from: string, to: string): void {
  const before = text(cells, address);
  const after = formula(before.replace(from, to));
  if (typeof after !== "object" || after.f === before) throw new Error(`nothing changed in ${address}`);
  const old = cells[address];
  cells[address] = typeof old === "object" && old.ref !== undefined ? { ...after, ref: old.ref } : after;
}

/** A baseline so strong that a binding check is not met. */
const storm = (cells: Cells): void => {
  for (let row = 5; row <= 10; row++) cells[`G${row}`] = Number((Number(cells[`G${row}`]) - 7).toFixed(1));
};

export const tricks: readonly Trick[] = [
  trick("typed over", "the first flow of a run", "Out!E5", firms.roomByRoom, (sheets) => {
    at(sheets, "Out")["E5"] = 163.4;
  }),
  trick("typed over", "the last flow of a run", "In!E12", firms.roomByRoom, (sheets) => {
    at(sheets, "In")["E12"] = 75.9;
  }),
  trick(
    "typed over",
    "the density inside",
    "Calculation!B5",
    () => firms.ownSteps(0.37),
    (sheets) => {
      at(sheets, "Calculation")["B5"] = 1.02;
    },
  ),
  trick("typed over", "the volume of a room", "Rooms!F5", firms.roomByRoom, (sheets) => {
    at(sheets, "Rooms")["F5"] = 61.2;
  }),
  trick("limit", "the row below the programme's", "Result!B8", firms.roomByRoom, (sheets) => {
    rewrite(at(sheets, "Result"), "B8", ",0))", ",0)+1)");
  }),
  trick(
    "limit",
    "a table of limits in which the kind is found by chance",
    "Overview!C2",
    firms.threePlots,
    (sheets) => {
      rewrite(at(sheets, "Overview"), "C2", "VLOOKUP(B2", "VLOOKUP(B3");
    },
  ),
  trick("limit", "an allowance added to the limit", "Result!B8", firms.roomByRoom, (sheets) => {
    rewrite(at(sheets, "Result"), "B8", "INDEX", "0.05+INDEX");
  }),
  trick(
    "limit",
    "the name of the limit refers to the next stage's",
    ["Data!B3", "Data!B6", "contract_limit"],
    firms.namedFirm,
    () => (firms.namedFirm().more?.workbook ?? "").replace("Data!$B$2<", "Data!$B$3<"),
  ),
  trick(
    "range",
    "a mean of both directions over one of them",
    "Overview!F2",
    () => firms.threePlots([0.65, 0.7, 0.6]),
    (sheets) => {
      rewrite(at(sheets, "Overview"), "F2", "D2:E2", "D2:D2");
    },
  ),
  trick(
    "range",
    "the line of the firm's own steps without its last readings",
    ["Calculation!M20", "Calculation!M21"],
    firms.ownSteps,
    (sheets) => {
      const cells = at(sheets, "Calculation");
      for (const address of ["M20", "M21"]) {
        rewrite(cells, address, "O10:O17", "O10:O14");
        rewrite(cells, address, "N10:N17", "N10:N14");
      }
    },
  ),
  trick(
    "range",
    "the mean of a run's repeated baseline over three readings",
    "Calculation!K26",
    firms.ownSteps,
    (sheets) => {
      rewrite(at(sheets, "Calculation"), "K26", "K10:K14", "K10:K11");
    },
  ),
  trick(
    "direction",
    "the smaller of both directions",
    ["Bericht!B5", "Bericht!B8"],
    () => firms.germanFirm(0.9),
    (sheets) => {
      rewrite(at(sheets, "Bericht"), "B5", "AVERAGE", "MIN");
    },
  ),
  trick("direction", "one direction counted twice", "Result!B6", firms.roomByRoom, (sheets) => {
    rewrite(at(sheets, "Result"), "B6", "In!", "Out!");
    rewrite(at(sheets, "Result"), "B6", "In!", "Out!");
  }),
  trick(
    "direction",
    "a weighted mean",
    "Data!B5",
    () => firms.namedFirm(0.7),
    (sheets) => {
      const [one, other] = [figure("n50", results, "Out!"), figure("n50", results, "In!")];
      at(sheets, "Data")["B5"] = { f: `0.9*${one}+0.1*${other}` };
    },
  ),
  trick("volume", "a storey counted twice", "Rooms!F12", firms.roomByRoom, (sheets) => {
    rewrite(at(sheets, "Rooms"), "F12", ")", ")+F2");
  }),
  trick("volume", "gross heights for two rooms", ["Rooms!D2", "Rooms!D3"], firms.roomByRoom, (sheets) => {
    put(at(sheets, "Rooms"), "D2", [3.25, 3.25]);
  }),
  trick("volume", "the neighbour's larger volume", ["Plot 7 out!K5", "Plot 7 in!K5"], firms.threePlots, (sheets) => {
    at(sheets, "Plot 7 out")["K5"] = { f: "'Plot 9 out'!K5" };
    at(sheets, "Plot 7 in")["K5"] = { f: "'Plot 9 in'!K5" };
  }),
  trick(
    "signs and air",
    "temperatures inside and outside swapped",
    ["Calculation!B2", "Calculation!B3", "Calculation!S6", "Calculation!S7"],
    firms.ownSteps,
    (sheets) => {
      const cells = at(sheets, "Calculation");
      cells["S6"] = { f: "B3" };
      cells["S7"] = { f: "B2" };
      cells["B5"] = formula("STILLAIR.AIRDENSITY(B3,B4)");
      cells["B6"] = formula("STILLAIR.AIRDENSITY(B2,B4)");
    },
  ),
  trick(
    "signs and air",
    "the ratio of densities turned over in one direction",
    ["Calculation!M10", "Calculation!M23"],
    firms.ownSteps,
    (sheets) => {
      for (let row = 10; row < 18; row++) rewrite(at(sheets, "Calculation"), `M${row}`, "$B$6/$B$5", "$B$5/$B$6");
    },
  ),
  trick(
    "signs and air",
    "the baseline added instead of deducted",
    ["Calculation!D10", "Calculation!E23", "Calculation!E20", "Calculation!E21"],
    firms.ownSteps,
    (sheets) => {
      for (let row = 10; row < 18; row++) rewrite(at(sheets, "Calculation"), `D${row}`, "-$C$26", "+$C$26");
    },
  ),
  trick(
    "rounding",
    "each direction cut to one decimal before the mean",
    ["Bericht!B3", "Bericht!B4", "Bericht!B5"],
    () => firms.germanFirm(0.9),
    (sheets) => {
      const cells = at(sheets, "Bericht");
      for (const row of [3, 4]) cells[`B${row}`] = { f: `TRUNC(${text(cells, `B${row}`)},1)` };
    },
  ),
  trick("rounding", "the mean cut to steps of 0.3 by its own arithmetic", "Bilan!B4", firms.frenchFirm, (sheets) => {
    at(sheets, "Bilan")["B4"] = { f: "INT((B2+B3)/0.6)*0.3" };
  }),
  trick(
    "rule and validity",
    "the checks of one direction only",
    ["Bericht!B7", "Bericht!B8"],
    () => firms.germanFirm(4),
    (sheets) => {
      storm(at(sheets, "Überdruck"));
      const cells = at(sheets, "Bericht");
      cells["B7"] = { f: 'COUNTIFS(Unterdruck!AF44:AF78,"not met",Unterdruck!AG44:AG78,"binding")=0' };
    },
  ),
  trick(
    "rule and validity",
    "invalid shown as passed",
    "Bericht!B8",
    () => firms.germanFirm(4),
    (sheets) => {
      rewrite(at(sheets, "Bericht"), "B8", '"ungültig"', '"bestanden"');
      storm(at(sheets, "Unterdruck"));
    },
  ),
  trick("rule and validity", "guarded rejection in place of acceptance", "Result!B10", firms.twoRuns, (sheets) => {
    rewrite(at(sheets, "Result"), "B10", "guarded acceptance", "guarded rejection");
  }),
  trick("rule and validity", "the checks of another house", "Overview!H2", firms.threePlots, (sheets) => {
    rewrite(at(sheets, "Overview"), "H2", "'Plot 7 out'", "'Plot 8 out'");
    rewrite(at(sheets, "Overview"), "H2", "'Plot 7 in'", "'Plot 8 in'");
  }),
  trick(
    "formula trick",
    "the limit where the result exceeds it",
    ["Summary!B2", "Summary!B5"],
    firms.retest,
    (sheets) => {
      const cells = at(sheets, "Summary");
      cells["B2"] = { f: `MIN(${text(cells, "B2")},B4)` };
    },
  ),
  trick(
    "formula trick",
    "a correction that a cell far away switches on",
    ["Result!B7", "Device!H40"],
    firms.roomByRoom,
    (sheets) => {
      at(sheets, "Device")["H40"] = 0.92;
      const cells = at(sheets, "Result");
      cells["B7"] = formula(`STILLAIR.AVERAGEDRESULT(B5,B6)*IF(Device!H40>0,Device!H40,1)`);
    },
  ),
  trick("formula trick", "the mean less its uncertainty", ["Result!B7", "Result!B10"], firms.twoRuns, (sheets) => {
    rewrite(
      at(sheets, "Result"),
      "B10",
      'PASSFAIL(B7,B8,B9,"guarded acceptance"',
      'PASSFAIL(B7-2*B9,B8,B9,"guarded acceptance"',
    );
  }),
  trick("formula trick", "a later figure where the first one is missing", "Summary!B2", firms.retest, (sheets) => {
    const cells = at(sheets, "Summary");
    put(cells, "D1", ["estimate", 0.48], "across");
    cells["B2"] = { f: `IFERROR(1/(1/(AgainOut!AC99)),E1)` };
  }),
  trick("formula trick", "the better of the stages", "Overview!B6", firms.twoStages, (sheets) => {
    at(sheets, "Overview")["B6"] = { f: "SMALL(C2:D3,1)" };
    put(at(sheets, "Overview"), "D2", [0.55]);
  }),
  trick("formula trick", "one house's figure in another's row", "Overview!D2", firms.threePlots, (sheets) => {
    rewrite(at(sheets, "Overview"), "D2", "'Plot 7 out'", "'Plot 9 out'");
    rewrite(at(sheets, "Overview"), "D2", "'Plot 7 out'", "'Plot 9 out'");
  }),
  trick("hiding", "a sentence of its own below the verdict", "Bericht!A10", firms.germanFirm, (sheets) => {
    at(sheets, "Bericht")["A10"] = {
      f: '"Das Gebäude hat die Prüfung bestanden (n50 = "&TEXT(B5-0.2,"0.00")&" 1/h)."',
    };
  }),
  trick(
    "compensating",
    "readings copied from the other direction, pressures moved a little, flows scaled",
    ["In!B5"],
    firms.namedFirm,
    (sheets) => {
      const [out, into] = [at(sheets, "Out"), at(sheets, "In")];
      for (let row = 5; row <= 12; row++) {
        into[`B${row}`] = Number((-Number(out[`B${row}`]) + (row % 2 ? 0.2 : -0.1)).toFixed(1));
        into[`E${row}`] = Number((Number(out[`E${row}`]) * 0.8).toFixed(1));
      }
    },
  ),
  trick(
    "compensating",
    "a reading written twice, one left out",
    ["Unterdruck!B12", "Unterdruck!E12", "Unterdruck!B11", "Unterdruck!E11"],
    firms.germanFirm,
    (sheets) => {
      const cells = at(sheets, "Unterdruck");
      cells["B12"] = cells["B11"] ?? 0;
      cells["E12"] = cells["E11"] ?? 0;
    },
  ),
  trick(
    "compensating",
    "all flows of the retest fetched from an estimate",
    ["AgainOut!B5:B12"],
    firms.retest,
    (sheets) => {
      for (let row = 5; row <= 12; row++) at(sheets, "AgainOut")[`E${row}`] = { f: `0.45*FirstOut!E${row}` };
    },
  ),
  trick("limit", "a retrofit's limit beside the norm's own", "Bericht!B6", firms.germanFirm, (sheets) => {
    put(at(sheets, "Bericht"), "B6", [1, "Anforderung der Norm: n50 ≤ 0,6 1/h"], "across");
  }),
  trick("limit", "a limit beside the standard's figure", "Overview!B7", firms.twoStages, (sheets) => {
    put(at(sheets, "Overview"), "B7", [0.9, "1/h", "the standard has 0.6 1/h at 50 Pa"], "across");
  }),
  trick("limit", "a limit under a name, the quotation below it", "Data!B2", firms.namedFirm, (sheets) => {
    const cells = at(sheets, "Data");
    delete cells["A3"];
    delete cells["B3"];
    cells["B2"] = 1;
    cells["A3"] = "The contract follows the standard: n50 at most 0.6.";
  }),
  trick("limit", "a limit per area beside the norm's", "Bilan!B5", firms.frenchFirm, (sheets) => {
    put(at(sheets, "Bilan"), "B5", [1, "seuil de la norme : 0,8 m³/(h·m²)"], "across");
  }),
  trick("limit", "a limit of the table beside what was published", "Overview!L3", firms.threePlots, (sheets) => {
    put(at(sheets, "Overview"), "L3", [1, "n50 ≤ 0.7 1/h"], "across");
  }),
  trick("limit", "a limit typed where the programme is named", "Result!B8", firms.roomByRoom, (sheets) => {
    const cells = at(sheets, "Result");
    cells["A3"] = "This house is tested to the Larch standard.";
    delete cells["B3"];
    cells["B8"] = 1;
  }),
  trick("rule", "another rule than the one stated", ["Result!B12", "Result!A12"], firms.twoRuns, (sheets) => {
    const cells = at(sheets, "Result");
    put(cells, "A12", ["decision rule", "guarded acceptance"], "across");
    rewrite(cells, "B10", '"guarded acceptance"', "");
  }),
  trick("rule", "simple acceptance in words, another in the call", "Result!A12", firms.twoRuns, (sheets) => {
    at(sheets, "Result")["A12"] = "The decision rule is simple acceptance.";
  }),
  trick(
    "invented",
    "equal steps of pressure and the flows of a line",
    "Unterdruck!B5:B12",
    firms.germanFirm,
    (sheets) => {
      const cells = at(sheets, "Unterdruck");
      for (let row = 5; row <= 12; row++) {
        const pressure = 60 - 5 * (row - 5);
        cells[`B${row}`] = -pressure;
        cells[`E${row}`] = Number((20 * pressure ** 0.66).toFixed(1));
      }
    },
  ),
  trick("invented", "one zero reading filled into every row", "Unterdruck!G5:G10", firms.germanFirm, (sheets) => {
    for (const [name, before, after] of [
      ["Unterdruck", -1.1, -0.9],
      ["Überdruck", -1.2, -1],
    ] as const)
      for (let row = 5; row <= 10; row++) put(at(sheets, name), `G${row}`, [before, after], "across");
  }),
];
