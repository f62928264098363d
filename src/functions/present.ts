/** An object without the fields that are not given. */
export function present<Fields extends object>(fields: {
  readonly [Name in keyof Fields]: Fields[Name] | undefined;
}): Partial<Fields> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Partial<Fields>;
}
