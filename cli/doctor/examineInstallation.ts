import { EXIT, type ExitCode } from '../exitCode.js';
import { PROGRAM_VERSION } from '../version.js';
import { type Style, styleOf } from '../views/terminal/style.js';
import { wrapped } from '../views/terminal/wrapped.js';
import type { Check } from './check.js';
import { checkDrawing } from './checkDrawing.js';
import { checkFfmpeg } from './checkFfmpeg.js';
import { checkGraphics } from './checkGraphics.js';
import { checkCores, checkFolders, checkNode } from './checkMachine.js';
import { checkInference, checkWeights } from './checkPoseModel.js';

/**
 * Looks at everything the program needs, prints what it finds as it finds it, and ends with 6 where something
 * is missing.
 */
export async function examineInstallation(ffmpeg: string | undefined): Promise<ExitCode> {
  const style = styleOf(process.stdout);
  const looks: readonly (() => Check[] | Promise<Check[]>)[] = [
    () => [checkNode(), checkCores()],
    () => checkPictures(ffmpeg),
    checkWeights,
    async () => [await checkInference()],
    async () => [await checkGraphics()],
    checkFolders,
  ];

  process.stdout.write(`tempofilm ${PROGRAM_VERSION}\n\n`);
  let missing = 0;
  for (const look of looks) {
    for (const check of await look()) {
      process.stdout.write(checkText(check, style));
      if (check.state === 'missing') missing += 1;
    }
  }
  const summary =
    missing === 0 ? 'Everything needed is here.' : `${missing} missing: the arrows say what to do.`;
  process.stdout.write(`\n${summary}\n`);
  return missing === 0 ? EXIT.answered : EXIT.incompleteInstallation;
}

/** Without an ffmpeg there is nothing to draw with, and nothing to say about it. */
async function checkPictures(ffmpeg: string | undefined): Promise<Check[]> {
  const found = await checkFfmpeg(ffmpeg);
  return found.state === 'missing' ? [found] : [found, await checkDrawing(ffmpeg)];
}

const SIGNS = { ok: '✓', mind: '!', missing: '✗' } as const;
const NAME_WIDTH = 15;

function checkText({ name, state, detail, remedy }: Check, { colors, width }: Style): string {
  const paint = { ok: colors.green, mind: colors.yellow, missing: colors.red }[state];
  const lead = `${SIGNS[state]} ${name.padEnd(NAME_WIDTH)}`;
  const text = wrapped(state === 'missing' ? `missing: ${detail}` : detail, width, lead);
  const lines = [`${paint(SIGNS[state])}${text.slice(1)}`];
  if (remedy !== null) lines.push(wrapped(remedy, width, '  → '));
  return `${lines.join('\n')}\n`;
}
