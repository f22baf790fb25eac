import { closeSync, openSync, readSync } from 'node:fs';
import { StringDecoder } from 'node:string_decoder';
import { Failure } from '../../../core/failure.js';

const CHUNK_BYTES = 64 * 1024;
const STANDARD_INPUT = 0;

/**
 * The lines of a text file without their ends, read as they are asked for; `-` is standard input.
 *
 * @throws Failure of kind `usage` when the file can't be read.
 */
export function* readLines(file: string): Generator<string> {
  const descriptor = file === '-' ? STANDARD_INPUT : opened(file);
  const decoder = new StringDecoder('utf8');
  const chunk = Buffer.alloc(CHUNK_BYTES);
  let rest = '';
  try {
    for (;;) {
      const count = readChunk(descriptor, chunk, file);
      if (count === 0) break;
      const lines = (rest + decoder.write(chunk.subarray(0, count))).split('\n');
      rest = lines.pop()!;
      for (const line of lines) yield line.replace(/\r$/, '');
    }
    rest += decoder.end();
    if (rest !== '') yield rest;
  } finally {
    if (descriptor !== STANDARD_INPUT) closeSync(descriptor);
  }
}

function opened(file: string): number {
  try {
    return openSync(file, 'r');
  } catch (error) {
    throw new Failure('usage', `${file} cannot be read.`, 'Give a file that tempofilm export wrote.', error);
  }
}

function readChunk(descriptor: number, chunk: Buffer, file: string): number {
  for (;;) {
    try {
      return readSync(descriptor, chunk);
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code;
      if (code === 'EOF') return 0;
      // A pipe that has nothing to read yet.
      if (code === 'EAGAIN') continue;
      throw new Failure(
        'usage',
        `${file} cannot be read.`,
        'Give a file that tempofilm export wrote.',
        error,
      );
    }
  }
}
