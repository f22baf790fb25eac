import { type Document, isMap, isNode, LineCounter, type Node, parseDocument } from 'yaml';
import { z } from 'zod';
import { Failure } from '../../core/failure.js';

/**
 * Reads a YAML text (JSON is YAML too) by a schema, and says where what cannot be read stands.
 *
 * Every plain value reaches the schema as the text that was written, so that `tempo: 3010` keeps its
 * noughts and `reps: 8-10` its hyphen.
 *
 * @param fileName as the user gave it, for messages.
 * @throws Failure (usage) with file, line and column, both from 1.
 */
export function parseValidatedYaml<Value>(
  text: string,
  schema: z.ZodType<Value, unknown>,
  fileName: string,
  remedy: string,
): Value {
  const lines = new LineCounter();
  const document = parseShallow();
  const broken = document.errors[0];
  if (broken !== undefined) throw misread(broken.message, broken.pos[0], lines, fileName, remedy);
  const parsed = schema.safeParse(plainValue());
  if (parsed.success) return parsed.data;
  const issue = parsed.error.issues[0]!;
  throw misread(inWords(document, issue), placeOf(document, issue), lines, fileName, remedy);

  function parseShallow() {
    try {
      return parseDocument(text, { schema: 'failsafe', lineCounter: lines, prettyErrors: false });
    } catch (error) {
      // The library follows nesting by recursion: thousands of brackets exhaust the stack.
      if (!(error instanceof RangeError)) throw error;
      throw tooDeep();
    }
  }

  function tooDeep(): Failure {
    return misread('The text is nested too deeply to be a plan.', 0, lines, fileName, remedy);
  }

  function plainValue(): unknown {
    try {
      return document.toJS();
    } catch (error) {
      if (error instanceof RangeError) throw tooDeep();
      // The library resolves aliases only here, and this is how it reports one that leads nowhere.
      if (!(error instanceof ReferenceError)) throw error;
      throw misread(error.message, 0, lines, fileName, remedy);
    }
  }
}

/** A text value read by one of the program's own readers, whose Failure becomes the message. */
export function textRead<Value>(read: (text: string) => Value) {
  return z.string('expected a plain value').transform((text, context): Value => {
    try {
      return read(text);
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      context.addIssue({ code: 'custom', message: error.message });
      return z.NEVER;
    }
  });
}

/** A number with limits, both included. */
export function numberRead(least: number, most: number) {
  return textRead((text) => {
    const value = text.trim() === '' ? Number.NaN : Number(text);
    if (!(value >= least && value <= most)) {
      throw new Failure('usage', `"${text}" is no number from ${least} to ${most}.`);
    }
    return value;
  });
}

/** Yes or no. */
export const flagRead = textRead((text) => {
  if (/^(true|yes)$/i.test(text)) return true;
  if (/^(false|no)$/i.test(text)) return false;
  throw new Failure('usage', `"${text}" is neither true nor false.`);
});

type Issue = z.core.$ZodIssue;

function inWords(document: Document, issue: Issue): string {
  const field = issue.path.filter((part) => typeof part === 'string').at(-1);
  const named = field === undefined ? '' : `${String(field)}: `;
  if (issue.code === 'unrecognized_keys') return `"${issue.keys[0]}" is not known here.`;
  const missing = issue.code !== 'custom' && field !== undefined && !document.hasIn(issue.path);
  return missing ? `"${String(field)}" is missing.` : `${named}${issue.message}`;
}

/** Offset in the text of what an issue is about, or of the nearest thing around it. */
function placeOf(document: Document, issue: Issue): number {
  const path = [...issue.path] as (string | number)[];
  if (issue.code === 'unrecognized_keys') {
    const map = document.getIn(path, true);
    const pair = isMap(map) ? map.items.find((item) => String(item.key) === issue.keys[0]) : undefined;
    if (isNode(pair?.key)) return startOf(pair.key);
  }
  for (let length = path.length; length > 0; length--) {
    const node = document.getIn(path.slice(0, length), true);
    if (isNode(node)) return startOf(node);
  }
  return isNode(document.contents) ? startOf(document.contents) : 0;
}

function startOf(node: Node): number {
  return node.range?.[0] ?? 0;
}

function misread(
  reason: string,
  offset: number,
  lines: LineCounter,
  fileName: string,
  remedy: string,
): Failure {
  const { line, col } = lines.linePos(offset);
  return new Failure('usage', `${fileName}, line ${line}, column ${col}: ${reason}`, remedy);
}
