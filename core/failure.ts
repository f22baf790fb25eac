/**
 * What went wrong, in the terms a user can act on. Each kind maps to one documented exit code
 * (see `cli/exitCode.ts`).
 */
export type FailureKind =
  /** The command line, a plan or an output path is wrong. */
  | 'usage'
  /** The film is missing, is a folder, or cannot be read as a film. */
  | 'film'
  /** The history file cannot be read or written. */
  | 'history'
  /** The installation lacks a part (ffmpeg, weights). */
  | 'installation'
  /** The user or the system asked the program to stop. */
  | 'interrupted';

/**
 * A fault a user can mend. `message` says what is wrong and names the file or value;
 * `remedy` says what to do about it. Bugs are never wrapped in this class.
 */
export class Failure extends Error {
  readonly kind: FailureKind;
  readonly remedy: string | null;

  constructor(kind: FailureKind, message: string, remedy: string | null = null, cause?: unknown) {
    super(message, cause === undefined ? undefined : { cause });
    this.name = 'Failure';
    this.kind = kind;
    this.remedy = remedy;
  }
}
