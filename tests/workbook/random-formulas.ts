import { ErrorValue, type CellValue } from "../../src/workbook/model";

/** Random numbers that are the same in every run (Park and Miller's generator). */
function createRandom(seed: number): () => number {
  let state = seed % 2_147_483_647;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

/** Formulas with the functions that consultants' workbooks use beside those of the method, arguments sensible for the most part. */
export function randomFormulas(count: number, seed: number): string[] {
  const random = createRandom(seed);
  const among = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  const whole = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1));
  const decimal = (from: number, to: number): number => Number((from + random() * (to - from)).toPrecision(4));
  const date = (): string => `DATE(${whole(1955, 2075)},${whole(1, 12)},${whole(1, 31)})`;
  const list = (length: number, make: () => number): string => Array.from({ length }, make).join(",");
  const flows = (length: number): string => `{-${decimal(500, 5000)},${list(length, () => decimal(100, 2500))}}`;
  const square = (size: number): string =>
    `{${Array.from({ length: size }, () => list(size, () => whole(-9, 9))).join(";")}}`;
  const radix = { BIN: 2, OCT: 8, HEX: 16 } as const;
  const rate = (): number => among([0, decimal(-0.05, 0.2), decimal(0.001, 0.02)]);
  const loan = (): string => `${rate()},${whole(1, 60)},${decimal(-900, 900)},${decimal(-9000, 9000)},${whole(0, 1)}`;
  const system = (): keyof typeof radix => among(["BIN", "OCT", "HEX"]);
  const digits = (of: keyof typeof radix): string => whole(0, 511).toString(radix[of]).toUpperCase();
  const units = [
    ["lbm", "ozm", "g", "kg", "stone", "grain", "ton"],
    ["Pa", "kPa", "atm", "psi"],
    ["J", "BTU", "cal", "Wh", "kWh", "flb", "HPh"],
    ["W", "HP", "PS"],
    ["C", "F", "K", "Rank", "Reau"],
    ["m", "ft", "in", "yd", "mi", "Nmi", "ang"],
    ["l", "gal", "uk_gal", "oz", "tbs", "tsp", "cup", "pt", "uk_pt", "m3", "ft3"],
  ];
  const makers: readonly (() => string)[] = [
    () => `DAYS360(${date()},${date()},${among(["TRUE", "FALSE"])})`,
    () => `YEARFRAC(${date()},${date()},${whole(0, 4)})`,
    () => `NETWORKDAYS.INTL(${date()},${date()},${among([whole(1, 7), whole(11, 17), '"0100010"'])})`,
    () => `WORKDAY.INTL(${date()},${whole(-400, 400)},${among([whole(1, 7), whole(11, 17), '"0000011"'])})`,
    () =>
      `DATEVALUE("${whole(1955, 2075)}-${String(whole(1, 12)).padStart(2, "0")}-${String(whole(1, 28)).padStart(2, "0")}")`,
    () => `TIMEVALUE("${whole(0, 23)}:${String(whole(0, 59)).padStart(2, "0")}${among(["", ":30"])}")`,
    () => `${among(["PMT", "PV", "FV"])}(${loan()})`,
    () =>
      `NPER(${decimal(0.001, 0.1)},${decimal(-900, -100)},${decimal(100, 5000)},${decimal(-50, 50)},${whole(0, 1)})`,
    () =>
      `${among(["IPMT", "PPMT"])}(${decimal(0.001, 0.1)},${whole(1, 12)},${whole(6, 24)},${decimal(100, 9000)},${whole(-90, 90)},${whole(0, 1)})`,
    () => `RATE(${whole(2, 60)},${decimal(-400, -200)},${decimal(300, 3000)})`,
    () => `NPV(${decimal(0.01, 0.2)},${flows(whole(2, 8))})`,
    () => `IRR(${flows(whole(2, 8))})`,
    () =>
      `XNPV(${decimal(0.01, 0.3)},{-900,300,${decimal(100, 900)}},{40000,${whole(40001, 41000)},${whole(40001, 43000)}})`,
    () =>
      `XIRR({-900,${decimal(300, 900)},${decimal(400, 900)}},{40000,${whole(40100, 41000)},${whole(40100, 43000)}})`,
    () => `SLN(${decimal(100, 9000)},${decimal(0, 90)},${whole(1, 30)})`,
    () => `SYD(${decimal(100, 9000)},${decimal(0, 90)},${whole(5, 30)},${whole(1, 8)})`,
    () => `${among(["EFFECT", "NOMINAL"])}(${decimal(0.001, 0.5)},${whole(1, 365)})`,
    () => {
      const kind = among(units);
      return `CONVERT(${decimal(-100, 1000)},"${among(kind)}","${among(kind)}")`;
    },
    () => `MDETERM(${square(whole(1, 4))})`,
    () => `SUM(MMULT(MINVERSE(${square(3)}),{1;2;3}))`,
    () => `ROMAN(${whole(0, 4200)})`,
    () => `_xlfn.ARABIC(ROMAN(${whole(1, 3999)}))`,
    () => `_xlfn.BASE(${whole(0, 99_999)},${whole(1, 37)},${whole(0, 9)})`,
    () => `_xlfn.DECIMAL("${whole(0, 9999).toString(18)}",${among([10, 18, 20, 36])})`,
    () => {
      const from = system();
      const to = among((["BIN", "OCT", "HEX"] as const).filter((other) => other !== from));
      return `${from}2${among(["DEC", to])}("${digits(from)}")`;
    },
    () => `DEC2${system()}(${whole(-700, 700)}${among(["", `,${whole(1, 10)}`])})`,
    () =>
      `_xlfn.${among(["CEILING.PRECISE", "FLOOR.PRECISE"])}(${decimal(-99, 99)},${among([whole(-5, 5), 0.5, 0.25])})`,
    () => `COUNTIF(A${whole(100_001, 100_050)}:A100060,"${whole(1, 9)}A")`,
  ];
  return Array.from({ length: count }, () => among(makers)());
}

/**
 * Differences that are known, and where Excel's own values or description decide for what is computed here:
 * - The codes of errors: LibreOffice has #VALUE! for most arguments out of range, Excel #NUM!. SYD beyond the life is an error to
 *   Excel only, and LibreOffice gives up IRR, XIRR and RATE on the way to some rates, or ends below −100 %.
 * - CONVERT: LibreOffice keeps the values for pounds, atmospheres and the like that Excel rounded before 2013, and takes flb for
 *   foot-poundals.
 * - MINVERSE of a matrix without an inverse: rounding leaves LibreOffice a pivot that is nearly 0, hence a huge figure.
 */
export function isExplained(formula: string, computed: CellValue, theirs: CellValue): boolean {
  if (computed instanceof ErrorValue && (theirs instanceof ErrorValue || formula.startsWith("SYD("))) return true;
  if (computed instanceof ErrorValue && formula.includes("MINVERSE("))
    return computed.code === "#NUM!" && typeof theirs === "number" && Math.abs(theirs) > 1e12;
  if (/^(IRR|XIRR|RATE)\(/.test(formula))
    return theirs instanceof ErrorValue || (typeof theirs === "number" && theirs < -1);
  if (!formula.startsWith("CONVERT(") || typeof computed !== "number" || typeof theirs !== "number") return false;
  return formula.includes('"flb"') || Math.abs(computed - theirs) < 1e-5 * Math.abs(computed);
}
