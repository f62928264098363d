import * as functions from "./index";

// Excel finds each function by its id, the name in upper case.
for (const [name, cellFunction] of Object.entries(functions))
  CustomFunctions.associate(name.toUpperCase(), cellFunction);
