/** A parameter as functions.json lists it. */
export interface ParameterEntry {
  readonly name: string;
  readonly description?: string;
  readonly type: string;
  readonly dimensionality?: string;
  readonly optional?: boolean;
  readonly customEnumId?: string;
}

/** A function as functions.json lists it. */
export interface FunctionEntry {
  readonly id: string;
  readonly name: string;
  readonly description?: string;
  readonly helpUrl?: string;
  readonly parameters: readonly ParameterEntry[];
  readonly result?: { readonly type?: string; readonly dimensionality?: string };
}

/** functions.json, as far as it is read here. */
export interface Metadata {
  readonly functions: readonly FunctionEntry[];
  readonly enums?: readonly { readonly id: string }[];
}
