/** Version of the calculation method; it changes whenever a result could change. */
export const methodVersion = "2.0.0";
