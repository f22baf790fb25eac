import { EXIT, type ExitCode } from '../exitCode.js';
import { PROGRAM_VERSION } from '../version.js';
import { type Style, styleOf } from '../views/terminal/style.js';
import type { Check } from './check.js';
import { checkCores, checkFolders, checkNode } from './checkMachine.js';

/** Looks at everything the program needs, prints what it finds, and ends with 6 where something is missing. */
export async function examineInstallation(): Promise<ExitCode> {
  const style = styleOf(process.stdout);
  const checks: Check[] = [];
  const report = (check: Check) => {
    checks.push(check);
    process.stdout.write(checkText(check, style));
  };

  process.stdout.write(`tempofilm ${PROGRAM_VERSION}\n\n`);
  report(checkNode());
  report(checkCores());
  for (const check of await checkFolders()) report(check);

  const missing = checks.filter(({ state }) => state === 'missing').length;
  process.stdout.write(
    missing === 0 ? '\nEverything needed is here.\n' : `\n${missing} missing: see the arrows above.\n`,
  );
  return missing === 0 ? EXIT.answered : EXIT.incompleteInstallation;
}

const SIGNS = { ok: '✓', mind: '!', missing: '✗' } as const;

function checkText({ name, state, detail, remedy }: Check, { colors }: Style): string {
  const paint = { ok: colors.green, mind: colors.yellow, missing: colors.red }[state];
  const word = state === 'missing' ? ' missing:' : '';
  const line = `${paint(SIGNS[state])} ${name.padEnd(15)}${word} ${detail}\n`;
  return remedy === null ? line : `${line}  → ${remedy}\n`;
}
