import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { style } from "../blocks/style";
import { atHour } from "./places";

/** What to expect and to set, in sentences; each stays away while its figures are not there. */
export function dayWords(sheet: Sheet, at: number): void {
  section(sheet, at, ["B", "H"], "What to expect and to set");
  const [from, to, stack, wind] = [atHour("O"), atHour("P"), atHour("L"), atHour("N")];
  const round = (value: string) => `SUBSTITUTE(ROUND(${value},1),"-","−")`;
  const opening = (name: string) => `IF(${name}="none","none of the device","“"&${name}&"”")`;
  const sentences = [
    [
      `COUNT(${from},${to})<2`,
      `"Baseline: "&${round(from)}&" to "&${round(to)}&" Pa; the stack makes "&${round(stack)}&" Pa at the gauge, the wind up to "&${round(wind)}&" Pa near the ground."`,
    ],
    [
      `COUNT(LowestPressure,HighestPressure,ExpectedBaseline)<3`,
      `IF(LowestPressure>=HighestPressure,"Pressures: the baseline to expect asks for "&LowestPressure&" Pa or more, the highest is "&HighestPressure&" Pa: nothing to set in this hour.","Pressures: induced from "&HighestPressure&" down to "&LowestPressure&" Pa; depressurizing the gauge shows "&${round("ExpectedBaseline-HighestPressure")}&" to "&${round("ExpectedBaseline-LowestPressure")}&" Pa, pressurizing "&${round("ExpectedBaseline+HighestPressure")}&" to "&${round("ExpectedBaseline+LowestPressure")}&" Pa.")`,
    ],
    [`WordsDep=""`, "WordsDep"],
    [`WordsPres=""`, "WordsPres"],
    [
      `OR(HighestOpening="",LowestOpening="",LowestPressure>=HighestPressure)`,
      `"At the lowest pressure: "&${opening("LowestOpening")}&" depressurizing, "&${opening("LowestOpeningPres")}&" pressurizing"&IF(AND(LowestOpening=HighestOpening,LowestOpeningPres=HighestOpeningPres),"; no change of the opening on the way.","; the opening may have to be changed on the way.")`,
    ],
    [`Method=""`, `"Openings by "&Method&": "&PreparationAll&" on the list, "&PreparationOpen&" not yet prepared."`],
  ] as const;
  sentences.forEach(([missing, sentence], index) => {
    const row = at + 1 + index;
    const words = `IFERROR(IF(${missing},"",${sentence}),"")`;
    sheet.formula(`B${row}`, words, style({ wrap: true })).merge(`B${row}:H${row}`);
  });
}
