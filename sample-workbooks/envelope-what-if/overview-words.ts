import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { style } from "../blocks/style";
import { comparisonCells } from "./comparison";

/** The difference in sentences; each stays away while its figures are not there. */
export function overviewWords(sheet: Sheet, at: number, comparisonAt: number): void {
  section(sheet, at - 1, ["B", "F"], "In plain words");
  const cell = (name: Parameters<typeof comparisonCells>[1]) => comparisonCells(comparisonAt, name);
  const [volume, envelope] = [cell("volume"), cell("envelope")];
  const [criterion, flow] = [cell("criterion"), cell("flow")];
  const [left, share] = [cell("left"), cell("share")];
  const [fan, opening] = [cell("fan"), cell("opening")];
  const [energy, cost] = [cell("energy"), cell("cost")];
  const of = (place: string, noun: string) => `IF(${place}="the same","the same ${noun}",${place}&" ${noun}")`;
  const quoted = (name: string) => `"“"&${name}&"”"`;
  const sentences = [
    [
      `OR(${volume.words}="",${envelope.words}="")`,
      `${quoted("VariantName")}&" against "&${quoted("BaseName")}&": "&${of(volume.words, "volume")}&", "&${of(envelope.words, "envelope area")}&"."`,
    ],
    [
      `${flow.words}=""`,
      `IF(${criterion.base}=${criterion.variant},"The limit is the same ("&${criterion.base}&")","The limit is another one ("&${criterion.variant}&" instead of "&${criterion.base}&")")&": it allows "&ROUND(${flow.variant},0)&" m³/h at 50 Pa instead of "&ROUND(${flow.base},0)&IF(${flow.words}="the same","",", "&${flow.words})&"."`,
    ],
    [
      `OR(${left.variant}="",${share.variant}="")`,
      `IF(${left.variant}<0,"The known components alone exceed the limit by "&ROUND(-${left.variant},0)&" m³/h: better windows, tighter joints or another limit are needed.","The known components take "&ROUND(100*${share.variant},0)&" % of it; "&ROUND(${left.variant},0)&" m³/h are left for leaks that nobody has drawn"&IF(${left.base}="",".",", "&ROUND(${left.base},0)&" m³/h in the base."))`,
    ],
    [
      `${fan.variant}=""`,
      `"The fan must give "&ROUND(${fan.variant},0)&" m³/h at the highest pressure of the test, with the reserve"&IF(${opening.variant}="none","; no opening of the device gives it.",IF(${opening.variant}="",".","; opening “"&${opening.variant}&"”."))`,
    ],
    [
      `OR(${energy.words}="",${cost.words}="")`,
      `"By the model "&UsedModel&", infiltration takes "&ROUND(${energy.variant},0)&" kWh a season ("&${energy.words}&"), "&ROUND(${cost.variant},0)&" "&Currency&"."`,
    ],
  ] as const;
  sentences.forEach(([missing, sentence], index) => {
    const row = at + index;
    sheet
      .formula(`B${row}`, `IF(${missing},"",${sentence})`, style({ wrap: true, vertical: "top" }))
      .merge(`B${row}:F${row}`);
    sheet.height(index === 1 ? 25 : 15, row);
  });
}
