// What the tests of the method use of vitest, for a run that has to start some thousand times: tests are listed here and run by runner.mjs.
import { format } from "node:util";

/** @type {{ name: string, run: () => unknown }[]} */
export const listed = [];
let path = [];

function titled(name, values) {
  const [first] = values;
  const filled = name.replace(/\$([\w.]+)/g, (whole, keys) => {
    const value = keys.split(".").reduce((from, key) => from?.[key], first);
    return value === undefined ? whole : String(value);
  });
  const placeholders = filled.match(/%[sdjifo]/g)?.length ?? 0;
  return format(filled, ...values.slice(0, placeholders));
}

function withEach(declare) {
  declare.each =
    (cases) =>
    (name, ...rest) => {
      for (const one of cases) {
        const values = Array.isArray(one) ? one : [one];
        declare(titled(name, values), () => bodyOf(rest)(...values));
      }
    };
  return declare;
}

/** Options such as a time limit may come between the name and the body, or after it; here they do not count. */
const bodyOf = (given) => given.find((one) => typeof one === "function");

export const describe = withEach((name, ...rest) => {
  const outside = path;
  path = [...path, name];
  bodyOf(rest)();
  path = outside;
});

const declared = (name, ...rest) => void listed.push({ name: [...path, name].join(" "), run: bodyOf(rest) });

export const test = withEach((...given) => declared(...given));
export const it = withEach((...given) => declared(...given));

/** vitest's own, handed in by the runner. */
export const expect = globalThis.expectOfVitest;
