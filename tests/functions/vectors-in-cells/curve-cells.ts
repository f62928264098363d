// Everything in the file of vectors that a cell can give, asked of the cell functions: whatever else such a file may hold in the same form is computed by these calls.
export type Table = readonly (readonly unknown[])[];

export const ESTIMATE = "the file asks for 1e-11 of estimates";

export const UNCERTAINTY = "the file asks for 1e-9 of uncertainties";
