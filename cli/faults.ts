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
  const refusal = refusalOfTheFileSystem(thrown);
  if (refusal !== null) return reportFault(refusal, debug);
  const message = thrown instanceof Error ? thrown.message : String(thrown);
  const lines = [`tempofilm: unexpected fault: ${oneLine(message)}`];
  lines.push(
    debug
      ? stackOf(thrown)
      : '  This is a fault of the program. Run again with --debug and report what it prints.',
  );
  return { exitCode: EXIT.unexpectedFault, text: `${lines.join('\n')}\n` };
}

const REFUSALS: Readonly<Record<string, string>> = {
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EROFS: 'the file system is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'the path leads round in a circle',
};

/** What the system does not allow with a file is for the user to mend, wherever in the program it came up. */
function refusalOfTheFileSystem(thrown: unknown): Failure | null {
  if (!(thrown instanceof Error) || !('code' in thrown) || !('path' in thrown)) return null;
  const reason = REFUSALS[String(thrown.code)];
  if (reason === undefined || typeof thrown.path !== 'string') return null;
  return new Failure(
    'usage',
    `"${thrown.path}" can't be used: ${reason}.`,
    'Check its permissions and the room on its disk, or name another place.',
    thrown,
  );
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
