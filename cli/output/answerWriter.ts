import type { SetReport } from '../../analysis/report/setReport.js';
import { refuseUnlessWritable, writeAside } from '../../core/media/writeAside.js';

/** Takes answers one after the other, and writes them out. */
export interface AnswerWriter {
  readonly add: (text: string) => void;
  /** Puts a file in its place; nothing of it is there before. */
  readonly finish: () => Promise<void>;
}

/**
 * Answers go to standard output as they come, or all together into a file.
 *
 * @throws Failure (usage), before any long work, where the file exists (without `force`) or can't be written.
 */
export async function openAnswerWriter(output: string | undefined, force: boolean): Promise<AnswerWriter> {
  if (output === undefined) {
    return { add: (text) => void process.stdout.write(text), finish: async () => {} };
  }
  await refuseUnlessWritable(output, { force });
  const parts: string[] = [];
  return {
    add: (text) => void parts.push(text),
    // A run that found nothing to say leaves no empty file.
    finish: async () => (parts.length === 0 ? undefined : writeAside(output, parts.join(''), { force })),
  };
}

/** A report as JSON: indented when alone, on one line where several follow one another. */
export function jsonText(report: SetReport, several: boolean): string {
  return `${JSON.stringify(report, null, several ? 0 : 2)}\n`;
}
