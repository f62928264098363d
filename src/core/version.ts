/** Version of the calculation method; it changes whenever a result could change. */
export const methodVersion = "1.0.0";
