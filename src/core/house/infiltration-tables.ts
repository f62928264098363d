// ASHRAE Handbook—Fundamentals 2021 (SI) ch. 16, tables 4 to 10: coefficients of the basic and the enhanced model. Rows by storeys 1, 2, 3 unless a line says otherwise.

/** Basic model, stack: C_s, (L/s)²/(cm⁴·K), by storeys. */
export const basicStack = [0.000145, 0.00029, 0.000435];

/** Basic model, wind: C_w, (L/s)²/(cm⁴·(m/s)²), by shelter class 1 to 5, then storeys. */
export const basicWind = [
  [0.000319, 0.00042, 0.000494],
  [0.000246, 0.000325, 0.000382],
  [0.000174, 0.000231, 0.000271],
  [0.000104, 0.000137, 0.000161],
  [0.000032, 0.000042, 0.000049],
];

/** Enhanced model, wind speed multiplier G by storeys. */
export const windMultiplier = [0.48, 0.59, 0.67];

/** Enhanced model, stack: C_s, (Pa/K)^n, by storeys; without and with a flue. */
export const enhancedStack = [
  [0.054, 0.069],
  [0.078, 0.089],
  [0.098, 0.107],
];

/** Enhanced model, wind: C_w, (Pa·s²/m²)^n, by foundation, then storeys; without and with a flue. */
export const enhancedWind = {
  "basement or slab": [
    [0.156, 0.142],
    [0.17, 0.156],
    [0.17, 0.167],
  ],
  "crawl space": [
    [0.128, 0.128],
    [0.142, 0.142],
    [0.151, 0.154],
  ],
};

/** Enhanced model, shelter factor s by shelter class 1 to 5; without a flue, then with the flue of 1, 2, 3 storeys. */
export const shelterFactor = [
  [1, 1.1, 1.07, 1.06],
  [0.9, 1.02, 0.98, 0.97],
  [0.7, 0.86, 0.81, 0.79],
  [0.5, 0.7, 0.64, 0.61],
  [0.3, 0.54, 0.47, 0.43],
];
