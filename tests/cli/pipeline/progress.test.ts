import { Writable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { progressOf } from '../../../cli/pipeline/progress.js';

/** Standard error as a terminal or a pipe, and what was written to it. */
function errorStream(isTTY: boolean) {
  let text = '';
  const stream = Object.assign(
    new Writable({
      write(chunk, _encoding, done) {
        text += String(chunk);
        done();
      },
    }),
    { isTTY, columns: 100, cursorTo: () => true, clearLine: () => true, moveCursor: () => true },
  ) as unknown as NodeJS.WriteStream;
  return { stream, written: () => text };
}

function work(progress: ReturnType<typeof progressOf>): void {
  progress.update({ stage: 'measuring', done: 40, total: 100 });
  progress.update({ stage: 'drawing', done: 3, total: 12 });
  progress.note('The measurement could not be kept in the cache folder.');
  progress.stop();
}

describe('progress', () => {
  it('is a bar with the share done and the time left in a terminal', () => {
    const { stream, written } = errorStream(true);
    work(progressOf('row.mp4', false, stream));
    expect(written()).toMatch(/row\.mp4: measuring .*0 %, .* left/);
    expect(written()).toMatch(/row\.mp4: drawing /);
    expect(written()).toContain('could not be kept');
  });

  it('is nothing but notes elsewhere, and nothing at all when quiet', () => {
    const pipe = errorStream(false);
    work(progressOf('row.mp4', false, pipe.stream));
    expect(pipe.written()).toBe('The measurement could not be kept in the cache folder.\n');
    const quiet = errorStream(true);
    work(progressOf('row.mp4', true, quiet.stream));
    expect(quiet.written()).toBe('');
  });
});
