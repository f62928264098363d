import { ErrorValue } from "../../model";
import type { Grid } from "../grid/grid";
import { errors, isSingleCell, Reference, type Value } from "../values/value";

/** A1#: the cells that the dynamic array formula in A1 fills now; #REF! where there is none. */
export function spillReference(value: Value, grid: Grid): Value {
  if (value instanceof ErrorValue) return value;
  const area = value instanceof Reference ? value.area : undefined;
  if (!area || !isSingleCell(area)) return errors.reference;
  const slot = grid.slotAt(area.sheet, area.top, area.left);
  if (!slot?.formula?.dynamic) return errors.reference;
  const own = grid.value(area.sheet, area.top, area.left);
  if (!slot.filled) return own instanceof ErrorValue ? own : errors.reference;
  return new Reference([{ sheet: area.sheet, ...slot.filled }]);
}
