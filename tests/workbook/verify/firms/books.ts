import { put, type Cells } from "../bare";
import type { PackageOptions } from "../../file/package";
import {
  checks,
  deviceSheet,
  directionSheet,
  down,
  figure,
  formula,
  results,
  rooms,
  roomsSheet,
  up,
  type Content,
  type Sheets,
} from "./pieces";

/** Invented workbooks of invented firms, each in its own layout. A limit is chosen by the test: the house fails or meets it. */
export interface Firm {
  readonly sheets: Sheets;
  readonly more?: Partial<PackageOptions>;
}

const bothChecks = (a: string, b: string) => `_xlfn.VSTACK(${a}!$AA$44:$AI$78,${b}!$AA$44:$AI$78)`;

/** How many binding checks of a table are not met, counted by its columns of outcomes and of their weight. */
const unmet = (sheet: string, outcomes = "AF"): string => {
  const weight = outcomes === "AF" ? "AG" : "AQ";
  return `COUNTIFS(${sheet}${outcomes}44:${outcomes}78,"not met",${sheet}${weight}44:${weight}78,"binding")`;
};

/** Rooms, device, one sheet for each direction, and a result that takes its limit from a table of programmes. */
export function roomByRoom(limit = 0.55): Firm {
  const settings = { volume: { f: "Rooms!$F$12" } };
  const Result: Cells = { A1: "Result" };
  put(Result, "A3", ["programme", "Larch standard"], "across");
  put(Result, "D3", ["programme", "n50 at most"], "across");
  put(Result, "D4", ["Alder basic", 3], "across");
  put(Result, "D5", ["Larch standard", limit], "across");
  put(Result, "D6", ["Yew retrofit", 1.2], "across");
  put(Result, "A5", ["n50 blowing out", { f: figure("n50", results, "Out!") }], "across");
  put(Result, "A6", ["n50 blowing in", { f: figure("n50", results, "In!") }], "across");
  put(Result, "A7", ["n50", formula("STILLAIR.AVERAGEDRESULT(B5,B6)")], "across");
  put(Result, "A8", ["limit", { f: "INDEX($E$4:$E$6,MATCH(B3,$D$4:$D$6,0))" }], "across");
  put(Result, "A9", ["verdict", formula(`STILLAIR.PASSFAIL(B7,B8,,,,${bothChecks("Out", "In")})`)], "across");
  return {
    sheets: {
      Rooms: roomsSheet(rooms),
      Device: deviceSheet(),
      Out: directionSheet({ direction: "depressurization", readings: down(1, 12.2), settings }),
      In: directionSheet({ direction: "pressurization", readings: up(1, 12.9), settings }),
      Result,
    },
  };
}

/** Every step typed out in Excel's own functions on one sheet, the method's table beside them as a control. */
export function ownSteps(limit = 0.35): Firm {
  const cells: Cells = { A1: "volume m³", B1: 387, A2: "inside °C", B2: 21, A3: "outside °C", B3: 4 };
  put(cells, "A4", ["barometer Pa", 99_870], "across");
  put(
    cells,
    "A5",
    ["density inside", { f: "(B4-0.37802*0.5*611.2*EXP(17.62*B2/(243.12+B2)))/(287.055*(B2+273.15))" }],
    "across",
  );
  cells["B5"] = formula("STILLAIR.AIRDENSITY(B2,B4)");
  put(cells, "A6", ["density outside", formula("STILLAIR.AIRDENSITY(B3,B4)")], "across");
  const block = (columns: readonly [string, string, string, string, string, string, string], out: boolean) => {
    const [pressure, flow, zero, induced, envelope, logDp, logQ] = columns;
    const readings = out ? down(2, 11) : up(2, 11.4);
    put(cells, `${pressure}9`, ["Pa", "m³/h"], "across");
    put(cells, `${zero}9`, ["zero", "Δp", "q env", "ln Δp", "ln q"], "across");
    put(cells, `${pressure}10`, readings.pressures);
    put(cells, `${flow}10`, readings.flows);
    put(cells, `${zero}10`, [...readings.before.slice(0, 5)]);
    put(cells, `${zero}20`, [...readings.after.slice(0, 5)]);
    cells[`${zero}26`] = { f: `(AVERAGE(${zero}10:${zero}14)+AVERAGE(${zero}20:${zero}24))/2` };
    for (let row = 10; row < 18; row++) {
      cells[`${induced}${row}`] = { f: `ABS(${pressure}${row}-$${zero}$26)` };
      cells[`${envelope}${row}`] = { f: `${flow}${row}*${out ? "$B$5/$B$6" : "$B$6/$B$5"}` };
      cells[`${logDp}${row}`] = { f: `LN(${induced}${row})` };
      cells[`${logQ}${row}`] = { f: `LN(${envelope}${row})` };
    }
    const rows = (column: string) => `${column}10:${column}17`;
    cells[`${envelope}20`] = { f: `SLOPE(${rows(logQ)},${rows(logDp)})` };
    cells[`${envelope}21`] = { f: `EXP(INTERCEPT(${rows(logQ)},${rows(logDp)}))` };
    // C at reference conditions: the air through the leaks comes from outside when blowing out.
    cells[`${envelope}22`] = { f: `${envelope}21*(${out ? "B6" : "B5"}/1.20411)^(1-${envelope}20)` };
    cells[`${envelope}23`] = { f: `${envelope}22*50^${envelope}20` };
    cells[`${envelope}24`] = { f: `${envelope}23/$B$1` };
  };
  block(["A", "B", "C", "D", "E", "F", "G"], true);
  block(["I", "J", "K", "L", "M", "N", "O"], false);
  put(cells, "A30", ["n50 of the house", { f: "(E24+M24)/2" }], "across");
  put(cells, "A31", ["at most", limit], "across");
  put(cells, "A32", ["checks not met", { f: unmet("", "AF") + "+" + unmet("", "AP") }], "across");
  put(cells, "A33", ["verdict", { f: 'IF(B32>0,"not valid",IF(B30<=B31,"pass","fail"))' }], "across");
  put(cells, "R5", ["volume", { f: "B1" }], "across");
  put(cells, "R6", ["indoor temperature", { f: "B2" }], "across");
  put(cells, "R7", ["outdoor temperature", { f: "B3" }], "across");
  put(cells, "R8", ["barometric pressure", { f: "B4" }], "across");
  put(cells, "R9", ["flow basis", "actual at the fan"], "across");
  put(cells, "R10", ["test date", 46_300], "across");
  put(cells, "R11", ["gauge certificate valid until", 46_520], "across");
  put(cells, "R12", ["flow device certificate valid until", 46_480], "across");
  const given = "R5:S12";
  const out = `"depressurization",A10:A17,B10:B17,C10:C14,C20:C24,${given}`;
  cells["AA2"] = formula(`STILLAIR.TESTRESULT(${out})`, results);
  const into = `"pressurization",I10:I17,J10:J17,K10:K14,K20:K24,${given}`;
  cells["AI2"] = formula(`STILLAIR.TESTRESULT(${into})`, "AI2:AO42");
  cells["AA44"] = formula(`STILLAIR.VALIDITYCHECKS(${out})`, checks);
  cells["AK44"] = formula(`STILLAIR.VALIDITYCHECKS(${into})`, "AK44:AS78");
  return { sheets: { Calculation: cells } };
}

const houseNames = ["Plot 7", "Plot 8", "Plot 9"] as const;

/** Three houses, each on its own two sheets, and an overview with a limit by the kind of house. */
export function threePlots(limits: readonly number[] = [0.6, 0.7, 0.6]): Firm {
  const sheets: Sheets = { Device: deviceSheet() };
  const Overview: Cells = {};
  put(Overview, "A1", ["house", "kind", "limit", "out", "in", "n50", "margin", "verdict"], "across");
  put(Overview, "K1", ["kind", "limit"], "across");
  ["terrace", "semi", "detached"].forEach((kind, index) =>
    put(Overview, `K${index + 2}`, [kind, limits[index] ?? 1], "across"),
  );
  houseNames.forEach((name, index) => {
    const settings = {
      house: name,
      volume: [288, 341, 402][index] ?? 300,
      "test date": 46_300 + 3 * index,
    };
    const coefficient = [14, 15, 16][index] ?? 14;
    const [out, into] = [`${name} out`, `${name} in`];
    delete (settings as Record<string, unknown>)["house"];
    sheets[out] = directionSheet({ direction: "depressurization", readings: down(10 + index, coefficient), settings });
    sheets[into] = directionSheet({
      direction: "pressurization",
      readings: up(10 + index, coefficient * 1.03),
      settings,
    });
    const row = index + 2;
    put(
      Overview,
      `A${row}`,
      [
        name,
        ["terrace", "semi", "detached"][index] ?? "",
        { f: `VLOOKUP(B${row},$K$2:$L$4,2,FALSE)` },
        { f: figure("n50", results, `'${out}'!`) },
        { f: figure("n50", results, `'${into}'!`) },
        { f: `AVERAGE(D${row}:E${row})` },
        { f: `(C${row}-F${row})/C${row}` },
        formula(`STILLAIR.PASSFAIL(F${row},C${row},,,,${bothChecks(`'${out}'`, `'${into}'`)})`),
      ],
      "across",
    );
  });
  put(Overview, "A6", ["houses that pass", { f: 'COUNTIF(H2:H4,"pass")' }], "across");
  sheets["Overview"] = Overview;
  return { sheets };
}

/** A German firm: limit, verdict and sentence in German, judged by a comparison. */
export function germanFirm(limit = 0.8, words: readonly [string, string] = ["bestanden", "nicht bestanden"]): Firm {
  const settings = { volume: 355 };
  const Bericht: Cells = { A1: "Prüfbericht" };
  put(Bericht, "A3", ["n50 Unterdruck", { f: figure("n50", results, "Unterdruck!") }], "across");
  put(Bericht, "A4", ["n50 Überdruck", { f: figure("n50", results, "Überdruck!") }], "across");
  put(Bericht, "A5", ["n50 Mittelwert", { f: "AVERAGE(B3:B4)" }], "across");
  put(Bericht, "A6", ["Grenzwert", limit], "across");
  put(Bericht, "A7", ["gültig", { f: `${unmet("Unterdruck!")}+${unmet("Überdruck!")}=0` }], "across");
  put(Bericht, "A8", ["Ergebnis", { f: `IF(NOT(B7),"ungültig",IF(B5<=B6,"${words[0]}","${words[1]}"))` }], "across");
  put(
    Bericht,
    "A10",
    [{ f: '"Das Gebäude hat die Prüfung "&B8&" (n50 = "&TEXT(B5,"0.00")&" 1/h, Grenzwert "&TEXT(B6,"0.0")&" 1/h)."' }],
    "across",
  );
  return {
    sheets: {
      Unterdruck: directionSheet({ direction: "depressurization", readings: down(4, 24), settings, typedFlows: true }),
      Überdruck: directionSheet({ direction: "pressurization", readings: up(4, 25), settings, typedFlows: true }),
      Bericht,
    },
  };
}

/** A French firm judges the flow per envelope area. */
export function frenchFirm(limit = 0.9): Firm {
  const settings = { volume: 298, "envelope area": { f: "Surfaces!B5" } };
  const Surfaces: Cells = {};
  put(Surfaces, "A1", ["mur", "plancher", "toit", "", "total"]);
  put(Surfaces, "B1", [148.2, 92.5, 97.1]);
  Surfaces["B5"] = { f: "SUM(B1:B3)" };
  const Bilan: Cells = {};
  put(Bilan, "A2", ["q50/A dépression", { f: figure("qE50", results, "Dépression!") }], "across");
  put(Bilan, "A3", ["q50/A surpression", { f: figure("qE50", results, "Surpression!") }], "across");
  put(Bilan, "A4", ["moyenne", { f: "(B2+B3)/2" }], "across");
  put(Bilan, "A5", ["valeur limite", limit], "across");
  put(
    Bilan,
    "A6",
    [
      "conclusion",
      {
        f: `IF(${unmet("Dépression!")}+${unmet("Surpression!")}>0,"non valable",IF(ROUND(B4,2)<=B5,"conforme","non conforme"))`,
      },
    ],
    "across",
  );
  return {
    sheets: {
      Surfaces,
      Dépression: directionSheet({ direction: "depressurization", readings: down(5, 26), settings, typedFlows: true }),
      Surpression: directionSheet({ direction: "pressurization", readings: up(5, 25), settings, typedFlows: true }),
      Bilan,
    },
  };
}

/** A mid-construction test in one direction, the final test in both, and an overview that shows the stage asked for. */
export function twoStages(limit = 0.6): Firm {
  const size = { volume: 364 };
  const Overview: Cells = {};
  put(Overview, "A1", ["stage", "date", "n50"], "across");
  put(Overview, "A2", ["mid-construction", 46_210, { f: figure("n50", results, "Mid!") }], "across");
  put(
    Overview,
    "A3",
    ["final", 46_330, { f: `AVERAGE(${figure("n50", results, "FinalOut!")},${figure("n50", results, "FinalIn!")})` }],
    "across",
  );
  put(Overview, "A5", ["stage shown", "final"], "across");
  put(Overview, "A6", ["n50", { f: "INDEX(C2:C3,MATCH(B5,A2:A3,0))" }], "across");
  put(Overview, "A7", ["limit", limit], "across");
  put(
    Overview,
    "A8",
    ["verdict", formula(`STILLAIR.PASSFAIL(B6,B7,,,2,${bothChecks("FinalOut", "FinalIn")})`)],
    "across",
  );
  put(Overview, "A9", ["won since the middle", { f: 'TEXT(1-C3/C2,"0 %")' }], "across");
  return {
    sheets: {
      Mid: directionSheet({
        direction: "depressurization",
        readings: down(6, 31),
        settings: { ...size, "test date": 46_210, "outdoor temperature": 17 },
        typedFlows: true,
      }),
      FinalOut: directionSheet({
        direction: "depressurization",
        readings: down(7, 17),
        settings: { ...size, "test date": 46_330 },
        typedFlows: true,
      }),
      FinalIn: directionSheet({
        direction: "pressurization",
        readings: up(7, 17.6),
        settings: { ...size, "test date": 46_330 },
        typedFlows: true,
      }),
      Overview,
    },
  };
}

/** The first test failed and is kept; the verdict is that of the retest. */
export function retest(limit = 0.5): Firm {
  const of = (date: number): Record<string, Content> => ({ volume: 318, "test date": date });
  const Summary: Cells = {};
  const mean = (out: string, into: string) =>
    `AVERAGE(${figure("n50", results, `${out}!`)},${figure("n50", results, `${into}!`)})`;
  put(Summary, "A1", ["first test", { f: mean("FirstOut", "FirstIn") }, "archived"], "across");
  put(Summary, "A2", ["retest", { f: mean("AgainOut", "AgainIn") }, "counts"], "across");
  put(Summary, "A3", ["improvement", { f: "(B1-B2)/B1" }], "across");
  put(Summary, "A4", ["limit", limit], "across");
  put(
    Summary,
    "A5",
    ["verdict", formula(`STILLAIR.PASSFAIL(B2,B4,,,,${bothChecks("AgainOut", "AgainIn")})`)],
    "across",
  );
  const sheet = (direction: "depressurization" | "pressurization", seed: number, c: number, date: number) =>
    directionSheet({
      direction,
      readings: direction === "depressurization" ? down(seed, c) : up(seed, c),
      settings: of(date),
      typedFlows: true,
    });
  return {
    sheets: {
      FirstOut: sheet("depressurization", 8, 26, 46_260),
      FirstIn: sheet("pressurization", 8, 27, 46_260),
      AgainOut: sheet("depressurization", 9, 13, 46_281),
      AgainIn: sheet("pressurization", 9, 13.2, 46_281),
      Summary,
    },
  };
}

/** Names for everything: the limit, the volume, the result and the verdict. */
export function namedFirm(limit = 0.6): Firm {
  const settings = { volume: { f: "house_volume" } };
  const Data: Cells = {};
  put(Data, "A1", ["heated volume", 333], "across");
  put(Data, "A2", ["limit of this contract", limit], "across");
  put(Data, "A3", ["limit of the next stage", 2.5], "across");
  put(
    Data,
    "A5",
    ["result", { f: `(${figure("n50", results, "Out!")}+${figure("n50", results, "In!")})/2` }],
    "across",
  );
  put(
    Data,
    "A6",
    ["verdict", { f: `IF(${unmet("Out!")}+${unmet("In!")}>0,"NOT VALID",IF(house_n50>contract_limit,"FAIL","PASS"))` }],
    "across",
  );
  put(
    Data,
    "A7",
    ["in words", { f: '"Plot 12 "&IF(B6="PASS","complies","does not comply")&" with the contract."' }],
    "across",
  );
  const names =
    '<definedNames><definedName name="contract_limit">Data!$B$2</definedName>' +
    '<definedName name="house_n50">Data!$B$5</definedName><definedName name="house_volume">Data!$B$1</definedName></definedNames>';
  return {
    sheets: {
      Data,
      Out: directionSheet({ direction: "depressurization", readings: down(12, 18), settings, typedFlows: true }),
      In: directionSheet({ direction: "pressurization", readings: up(12, 18.5), settings, typedFlows: true }),
    },
    more: { workbook: names },
  };
}

/** Two runs in each direction, guarded acceptance and a probability. */
export function twoRuns(limit = 0.7): Firm {
  const settings = { volume: 350 };
  const sheets: Sheets = {};
  const runs = [
    ["Out1", "depressurization", 21, 19],
    ["Out2", "depressurization", 22, 19],
    ["In1", "pressurization", 23, 19.6],
    ["In2", "pressurization", 24, 19.6],
  ] as const;
  for (const [name, direction, seed, c] of runs)
    sheets[name] = directionSheet({
      direction,
      readings: direction === "depressurization" ? down(seed, c) : up(seed, c),
      settings,
      typedFlows: true,
    });
  const Result: Cells = {};
  runs.forEach(([name], index) =>
    put(Result, `A${index + 2}`, [name, { f: figure("n50", results, `${name}!`) }], "across"),
  );
  put(Result, "A7", ["mean", formula("STILLAIR.AVERAGEDRESULT(B2:B3,B4:B5)")], "across");
  put(Result, "A8", ["limit", limit], "across");
  const budget = (direction: string, sheet: string, other = "") =>
    formula(
      `STILLAIR.UNCERTAINTYBUDGET("${direction}",${sheet}!B5:B12,${sheet}!E5:E12,${sheet}!G5:G10,${sheet}!H5:H10,${sheet}!J5:K12${other})`,
      other === "" ? "AA2:AK94" : "AN2:AX94",
    );
  Result["AA2"] = budget("depressurization", "Out1");
  Result["AN2"] = budget("pressurization", "In1", ",,AA2:AK94");
  put(Result, "A9", ["U", { f: 'INDEX(AP2:AP83,MATCH("expanded",AO2:AO83,0))' }], "across");
  const all = `_xlfn.VSTACK(${runs.map(([name]) => `${name}!AA44:AI78`).join(",")})`;
  put(Result, "A10", ["verdict", formula(`STILLAIR.PASSFAIL(B7,B8,B9,"guarded acceptance",,${all})`)], "across");
  put(Result, "A11", ["probability", formula("STILLAIR.CONFORMANCEPROBABILITY(B7,B9/2,B8)")], "across");
  return { sheets: { ...sheets, Result } };
}

/** Flow of two fans added in a column, the second one running only at high pressures. */
export function twoFans(limit = 1.5): Firm {
  const settings = { volume: 1480 };
  const sheet = (direction: "depressurization" | "pressurization"): Cells => {
    const readings = direction === "depressurization" ? down(31, 190) : up(31, 196);
    const cells = directionSheet({ direction, readings, settings, typedFlows: true });
    readings.flows.forEach((flow, index) => {
      const row = index + 5;
      const second = index < 4 ? Number((flow * 0.42).toFixed(0)) : 0;
      cells[`C${row}`] = Number((flow - second).toFixed(0));
      cells[`D${row}`] = second === 0 ? "off" : second;
      cells[`E${row}`] = { f: `SUM(C${row}:D${row})` };
    });
    put(cells, "C4", ["fan 1 m³/h", "fan 2 m³/h"], "across");
    return cells;
  };
  const Sum: Cells = {};
  put(Sum, "A1", ["out", { f: figure("n50", results, "Out!") }], "across");
  put(Sum, "A2", ["in", { f: figure("n50", results, "In!") }], "across");
  put(Sum, "A3", ["n50", { f: "ROUND(AVERAGE(B1:B2),2)" }], "across");
  put(Sum, "A4", ["limit", limit], "across");
  put(Sum, "A5", ["verdict", formula(`STILLAIR.PASSFAIL(B3,B4,,,,${bothChecks("Out", "In")})`)], "across");
  put(Sum, "A6", ["traffic light", { f: 'IF(B5="pass",IF(B3<0.9*B4,"green","yellow"),"red")' }], "across");
  return { sheets: { Out: sheet("depressurization"), In: sheet("pressurization"), Sum } };
}
