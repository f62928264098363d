/** Registers functions by their ids, the names in upper case, by which Excel finds them. */
export function register(functions: Readonly<Record<string, (...given: any[]) => unknown>>): void {
  for (const [name, cellFunction] of Object.entries(functions))
    CustomFunctions.associate(name.toUpperCase(), cellFunction);
}
