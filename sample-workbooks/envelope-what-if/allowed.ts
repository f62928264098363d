import type { Setting } from "../blocks/add-in";

/** What ALLOWEDLEAKAGE is told of a limit, from the cells of its quantity and its pressure. */
export function allowedSettings(quantity: string, pressure: string, exponent: string): readonly Setting[] {
  const leakageArea = `${quantity}="leakage area per envelope area"`;
  return [
    // Without a limit it still names a quantity, so that the results stay blank instead of asking for one.
    ["quantity", `IF(${quantity}="","air change rate",${quantity})`],
    ["reference pressure", `IF(${pressure}="","",${pressure})`],
    ["leakage area definition", `IF(${leakageArea},IF(${pressure}=4,"effective 4 Pa","equivalent 10 Pa"),"")`],
    ["exponent", `IF(${exponent}="","",${exponent})`],
  ];
}

/** The volume that a limit counts. Where it counts room by room, an unknown share of partitions must not pass for none. */
export function countedVolume(gross: string, convention: string, partitions: string): string {
  const net = `IF(${partitions}="","",IF(AND(${partitions}>=0,${partitions}<=40),${gross}*(1-${partitions}/100),NA()))`;
  return `IF(${gross}="","",IF(${convention}="room by room",${net},${gross}))`;
}

/** What is left over, in words, from the cells of the flow left, of the share taken and of whether the amounts fit. */
export function leftoverWords(left: string, share: string, state: string): string {
  const room = `IF(${share}>0.8,"little left for unknown leaks","room for unknown leaks")`;
  return `IF(${left}<0,"known components exceed the limit",IF(${state}="look again","amounts: look again",${room}))`;
}
