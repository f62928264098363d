export const none = undefined as never;

export const changes = [["quantity", "air change rate"]];

export const placeOf = (table: unknown[][], place: number): unknown[] => table.map((row) => row[place]);
