import { CommanderError } from '@commander-js/extra-typings';
import { Failure } from '../core/failure.js';
import { EXIT, type ExitCode, exitCodeOf } from './exitCode.js';

/** What a fault means for the user: the code to end with, and the lines for standard error (empty: already said). */
export interface ReportedFault {
  readonly exitCode: ExitCode;
  readonly text: string;
}

/**
 * Puts any thrown value into words: one clear line and what to do about it. A stack trace is shown only
 * with `--debug`, since it tells a lifter nothing.
 */
export function reportFault(thrown: unknown, debug: boolean): ReportedFault {
  if (thrown instanceof CommanderError) return reportCommandLineFault(thrown);
  if (thrown instanceof Failure) {
    const lines = [`tempofilm: ${oneLine(thrown.message)}`];
    if (thrown.remedy !== null) lines.push(`  ${oneLine(thrown.remedy)}`);
    if (debug) lines.push(stackOf(thrown));
    return { exitCode: exitCodeOf(thrown.kind), text: `${lines.join('\n')}\n` };
  }
  const message = thrown instanceof Error ? thrown.message : String(thrown);
  const lines = [`tempofilm: unexpected fault: ${oneLine(message)}`];
  lines.push(
    debug
      ? stackOf(thrown)
      : '  This is a fault of the program. Run again with --debug and report what it prints.',
  );
  return { exitCode: EXIT.unexpectedFault, text: `${lines.join('\n')}\n` };
}

/** Commander has already written its message; asking for help or the version is no fault. */
function reportCommandLineFault(error: CommanderError): ReportedFault {
  return { exitCode: error.exitCode === 0 ? EXIT.answered : EXIT.wrongUsage, text: '' };
}

/** Line breaks come from odd file names; only a message that points at a character with ^ is meant to have some. */
function oneLine(text: string): string {
  const line = text.endsWith('^') ? text : text.trim().replace(/\s*\n\s*/g, ' ');
  return line.replace(CONTROL_CHARACTERS, '\uFFFD');
}

/** A file name may hold sequences that colour, move or rewrite what a terminal shows; line breaks are kept. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
const CONTROL_CHARACTERS = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/g;

function stackOf(thrown: unknown): string {
  if (!(thrown instanceof Error)) return String(thrown);
  const own = thrown.stack ?? thrown.message;
  return thrown.cause === undefined ? own : `${own}\ncaused by ${stackOf(thrown.cause)}`;
}
