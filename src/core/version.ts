/** Version of the calculation method; it changes whenever a result could change. */
export const methodVersion = "0.1.0";
