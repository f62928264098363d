/** Characters that a terminal obeys, or that turn the direction of writing. */
const controls = [
  "\u001b[2J\u001b[H",
  "\u001b]0;title\u0007",
  "\u009b31m",
  "\r",
  "\b\b",
  "\n  Nothing found.",
  "\u202egnp",
  "\u2066",
];

/** Texts at the edges of what a workbook's attributes and values mean. Control characters come as Excel writes them, _xHHHH_, and as they are. */
export const oddTexts: readonly string[] = [
  ...[
    "",
    " ",
    "0",
    "-1",
    "1",
    "-0",
    "1e308",
    "1e309",
    "NaN",
    "Infinity",
    "1,5",
    "0x10",
    "4294967296",
    "9007199254740993",
  ],
  ...["true", "TRUE", "null", "A1", "XFD1048576", "XFE1048577", "A0", "A1:A1048576", "A1:XFD1048576", "B2:A1", "#REF!"],
  ...["toString", "constructor", "__proto__", "hasOwnProperty", "valueOf"],
  ...["../../evil.xml", "/xl/workbook.xml", "xl/worksheets/sheet1.xml", "http://example.org/", "rId1", "rId999"],
  ...["array", "shared", "dataTable", "str", "inlineStr", "s", "e", "b", "d", "z"],
  ...["<script>alert(1)</script>", '" onload="alert(1)', "javascript:alert(1)", "</style><script>", "]]>", "--><b>"],
  ...controls.filter((text) => !text.includes("\u001b") && !text.includes("\b") && !text.includes("\u0007")),
  ...controls.map((text) =>
    text.replace(/[^ -~]/g, (sign) => `_x${sign.charCodeAt(0).toString(16).padStart(4, "0")}_`),
  ),
  ...["[", "]", "'", '"', "(", "{"].map((sign) => sign.repeat(3_000)),
  ...["\u{1F3E0}", "e\u0301\u0301\u0301", "\ufeff", "\ufffd", "General;;;[Red]@", "[$-409]mmmm", "0".repeat(400)],
  "x".repeat(40_000),
];
