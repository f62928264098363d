import * as z from "zod";
const parameterEntry = z.object({
  name: z.string(),
  description: z.string().optional(),
  type: z.string(),
  dimensionality: z.string().optional(),
  optional: z.boolean().optional(),
  customEnumId: z.string().optional(),
});

const functionEntry = z.object({
  id: z.string(),
  name: z.string(),
  description: z.string().optional(),
  helpUrl: z.string().optional(),
  parameters: z.array(parameterEntry),
  result: z.object({ type: z.string().optional(), dimensionality: z.string().optional() }).optional(),
});

/** functions.json, as far as it is read here. */
const metadataFile = z.object({
  functions: z.array(functionEntry),
  enums: z.array(z.object({ id: z.string() })).optional(),
});

/** A parameter as functions.json lists it. */
export type ParameterEntry = z.infer<typeof parameterEntry>;

/** A function as functions.json lists it. */
export type FunctionEntry = z.infer<typeof functionEntry>;

export type Metadata = z.infer<typeof metadataFile>;

/** The content of a functions.json, in the order in which it is written. Throws where it is no such file. */
export function readMetadata(text: string): Metadata {
  const content: unknown = JSON.parse(text);
  metadataFile.parse(content);
  return content as Metadata;
}

const lastColumn = 16_384; // XFD
const lastRow = 1_048_576;
const mostParameters = 8;

/** True if Excel would read the name as a cell: A1 to XFD1048576, a row or column in R1C1 notation, or R, C, RC. */
export function looksLikeCell(name: string): boolean {
  const upper = name.toUpperCase();
  if (/^(R\d*)?(C\d*)?$/.test(upper)) return true;
  const match = /^([A-Z]{1,3})(\d{1,7})$/.exec(upper);
  if (!match?.[1] || !match[2]) return false;
  const row = Number(match[2]);
  return parseColumn(match[1]) <= lastColumn && row >= 1 && row <= lastRow;
}

function parseColumn(letters: string): number {
  return [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
}

/** One sentence for each rule broken by an id or a name. */
export function nameProblems(kind: "id" | "name", name: string): string[] {
  const problems: string[] = [];
  const say = (rule: string): void => void problems.push(`${kind} ${name}: ${rule}`);
  if (name.length < 3) say("is shorter than three characters");
  if (name.includes(".")) say("has a dot, which Excel stores as an underscore");
  if (looksLikeCell(name)) say("looks like the address of a cell");
  if (builtInNames.has(name.toUpperCase())) say("is the name of one of Excel's own functions");
  if (name !== name.toUpperCase()) say("is not in upper case");
  return problems;
}

/** One sentence for each rule broken by an entry of functions.json. */
export function checkEntry(entry: FunctionEntry): string[] {
  const problems = nameProblems("id", entry.id);
  if (entry.name !== entry.id) problems.push(...nameProblems("name", entry.name));
  if (!entry.description?.trim()) problems.push(`${entry.id}: has no description`);
  const [sentence = ""] = splitIntoSentences(entry.description?.replace(/\s+/g, " ") ?? "");
  if (sentence.length > longestShown)
    problems.push(`${entry.id}: the first sentence has ${sentence.length} characters, more than ${longestShown}`);
  if (entry.parameters.length > mostParameters)
    problems.push(`${entry.id}: has ${entry.parameters.length} parameters, more than ${mostParameters}`);
  let optionalSeen = false;
  for (const parameter of entry.parameters) {
    const what = `${entry.id}: parameter ${parameter.name}`;
    if (!parameter.description?.trim()) problems.push(`${what} has no description`);
    if ((parameter.description?.length ?? 0) > longestShown)
      problems.push(`${what} has a description of more than ${longestShown} characters`);
    if (!/^[a-z]+(_[a-z]+)*$/.test(parameter.name)) problems.push(`${what} is not lower_case_with_underscores`);
    if (optionalSeen && !parameter.optional) problems.push(`${what} is required but follows an optional one`);
    optionalSeen ||= parameter.optional === true;
  }
  return problems;
}

/** Values that occur more than once; Excel silently keeps only one function per id. */
export function findDuplicates(values: readonly string[]): string[] {
  return [...new Set(values.filter((value, index) => values.indexOf(value) !== index))];
}

/** Microsoft publishes no limit for what Excel shows of a description while a function is typed; 255 characters is that of other add-in functions. */
const longestShown = 255;

/** The sentences of a description. A full stop ends one only before a capital, a Greek letter or a quotation, so that "ch. 16" and "0.65" end nothing. */
export function splitIntoSentences(description: string): string[] {
  return description.split(/(?<=\.)\s+(?=["“A-ZΑ-Ωα-ω])/);
}

/** Parts for the page and for traces, which would only distract while a formula is typed. */
const forThePage = /^(Equation|Source|Columns): /;

/** What Excel shows while a function is typed: the first sentences of its description, as many as fit. */
export function cutDescription(description: string): string {
  const [first = "", ...others] = splitIntoSentences(description);
  let shown = first;
  for (const sentence of others) {
    if (forThePage.test(sentence) || shown.length + 1 + sentence.length > longestShown) break;
    shown += ` ${sentence}`;
  }
  return shown;
}

/**
 * Names of Excel's own worksheet functions: an add-in function of the same name is shadowed or refused.
 * Written down from memory of Microsoft's page "Excel functions (alphabetical)"; check a new id against that page too.
 * Dotted names are left out: an id never has a dot.
 */
const names = `
ABS ACCRINT ACCRINTM ACOS ACOSH ACOT ACOTH ADDRESS AGGREGATE AMORDEGRC AMORLINC AND ARABIC AREAS ARRAYTOTEXT ASC ASIN ASINH ATAN ATAN2 ATANH
AVEDEV AVERAGE AVERAGEA AVERAGEIF AVERAGEIFS BAHTTEXT BASE BESSELI BESSELJ BESSELK BESSELY BETADIST BETAINV BIN2DEC BIN2HEX BIN2OCT BINOMDIST
BITAND BITLSHIFT BITOR BITRSHIFT BITXOR BYCOL BYROW CALL CEILING CELL CHAR CHIDIST CHIINV CHITEST CHOOSE CHOOSECOLS CHOOSEROWS CLEAN CODE COLUMN
COLUMNS COMBIN COMBINA COMPLEX CONCAT CONCATENATE CONFIDENCE CONVERT COPILOT CORREL COS COSH COT COTH COUNT COUNTA COUNTBLANK COUNTIF COUNTIFS
COUPDAYBS COUPDAYS COUPDAYSNC COUPNCD COUPNUM COUPPCD COVAR CRITBINOM CSC CSCH CUBEKPIMEMBER CUBEMEMBER CUBEMEMBERPROPERTY CUBERANKEDMEMBER
CUBESET CUBESETCOUNT CUBEVALUE CUMIPMT CUMPRINC DATE DATEDIF DATESTRING DATEVALUE DAVERAGE DAY DAYS DAYS360 DB DBCS DCOUNT DCOUNTA DDB DEC2BIN
DEC2HEX DEC2OCT DECIMAL DEGREES DELTA DETECTLANGUAGE DEVSQ DGET DISC DMAX DMIN DOLLAR DOLLARDE DOLLARFR DPRODUCT DROP DSTDEV DSTDEVP DSUM DURATION
DVAR DVARP EDATE EFFECT ENCODEURL EOMONTH ERF ERFC EUROCONVERT EVEN EXACT EXP EXPAND EXPONDIST FACT FACTDOUBLE FALSE FDIST FIELDVALUE FILTER
FILTERXML FIND FINDB FINV FISHER FISHERINV FIXED FLOOR FORECAST FORMULATEXT FREQUENCY FTEST FV FVSCHEDULE GAMMA GAMMADIST GAMMAINV GAMMALN GAUSS
GCD GEOMEAN GESTEP GETPIVOTDATA GROUPBY GROWTH HARMEAN HEX2BIN HEX2DEC HEX2OCT HLOOKUP HOUR HSTACK HYPERLINK HYPGEOMDIST IF IFERROR IFNA IFS
IMABS IMAGE IMAGINARY IMARGUMENT IMCONJUGATE IMCOS IMCOSH IMCOT IMCSC IMCSCH IMDIV IMEXP IMLN IMLOG10 IMLOG2 IMPORTCSV IMPORTTEXT IMPOWER IMPRODUCT
IMREAL IMSEC IMSECH IMSIN IMSINH IMSQRT IMSUB IMSUM IMTAN INDEX INDIRECT INFO INT INTERCEPT INTRATE IPMT IRR ISBLANK ISERR ISERROR ISEVEN ISFORMULA
ISLOGICAL ISNA ISNONTEXT ISNUMBER ISO ISODD ISOMITTED ISOWEEKNUM ISPMT ISREF ISTEXT JIS KURT LAMBDA LARGE LCM LEFT LEFTB LEN LENB LET LINEST LN LOG
LOG10 LOGEST LOGINV LOGNORMDIST LOOKUP LOWER MAKEARRAY MAP MATCH MAX MAXA MAXIFS MDETERM MDURATION MEDIAN MID MIDB MIN MINA MINIFS MINUTE MINVERSE
MIRR MMULT MOD MODE MONTH MROUND MULTINOMIAL MUNIT NA NEGBINOMDIST NETWORKDAYS NOMINAL NORMDIST NORMINV NORMSDIST NORMSINV NOT NOW NPER NPV
NUMBERSTRING NUMBERVALUE OCT2BIN OCT2DEC OCT2HEX ODD ODDFPRICE ODDFYIELD ODDLPRICE ODDLYIELD OFFSET OR PDURATION PEARSON PERCENTILE PERCENTOF
PERCENTRANK PERMUT PERMUTATIONA PHI PHONETIC PI PIVOTBY PMT POISSON POWER PPMT PRICE PRICEDISC PRICEMAT PROB PRODUCT PROPER PV QUARTILE QUOTIENT
RADIANS RAND RANDARRAY RANDBETWEEN RANK RATE RECEIVED REDUCE REGEXEXTRACT REGEXREPLACE REGEXTEST REGISTER REPLACE REPLACEB REPT RIGHT RIGHTB ROMAN
ROUND ROUNDDOWN ROUNDUP ROW ROWS RRI RSQ RTD SCAN SEARCH SEARCHB SEC SECH SECOND SEQUENCE SERIESSUM SHEET SHEETS SIGN SIN SINH SKEW SLN SLOPE SMALL
SORT SORTBY SQRT SQRTPI STANDARDIZE STDEV STDEVA STDEVP STDEVPA STEYX STOCKHISTORY SUBSTITUTE SUBTOTAL SUM SUMIF SUMIFS SUMPRODUCT SUMSQ SUMX2MY2
SUMX2PY2 SUMXMY2 SWITCH SYD TAKE TAN TANH TBILLEQ TBILLPRICE TBILLYIELD TDIST TEXT TEXTAFTER TEXTBEFORE TEXTJOIN TEXTSPLIT THAIDAYOFWEEK THAIDIGIT
THAIMONTHOFYEAR THAINUMSOUND THAINUMSTRING THAISTRINGLENGTH THAIYEAR TIME TIMEVALUE TINV TOCOL TODAY TOROW TRANSLATE TRANSPOSE TREND TRIM TRIMMEAN
TRIMRANGE TRUE TRUNC TTEST TYPE UNICHAR UNICODE UNIQUE UPPER USDOLLAR VALUE VALUETOTEXT VAR VARA VARP VARPA VDB VLOOKUP VSTACK WEBSERVICE WEEKDAY
WEEKNUM WEIBULL WORKDAY WRAPCOLS WRAPROWS XIRR XLOOKUP XMATCH XNPV XOR YEAR YEARFRAC YIELD YIELDDISC YIELDMAT ZTEST
`;

const builtInNames: ReadonlySet<string> = new Set(names.trim().split(/\s+/));
