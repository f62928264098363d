export const iecc = { "Criteria!C6": "IECC 2021, zones 3 to 8", "Rooms!E28": "whole internal" };
