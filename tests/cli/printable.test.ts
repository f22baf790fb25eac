import { expect, test } from 'vitest';
import { printable } from '../../cli/printable.js';

test.each([
  [
    "unknown option '--fo\n\nr'\n  Add --help",
    ['--fo\n\nr'],
    "unknown option '--fo\uFFFD\uFFFDr'\n  Add --help",
  ],
  ["argument 'a\u001b[31m' is invalid", ['--to=a\u001b[31m'], "argument 'a\uFFFD[31m' is invalid"],

  ['nothing odd\n', ['--to', '5'], 'nothing odd\n'],
])('%j', (message, parameters, expected) => {
  expect(printable(message, parameters)).toBe(expected);
});
