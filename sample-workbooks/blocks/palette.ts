export { palette, typeface } from "../../src/workbook/palette";
