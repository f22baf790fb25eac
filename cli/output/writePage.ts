import path from 'node:path';
import { writeAside } from '../../core/media/writeAside.js';

/** Writes a page and says where; an existing file is replaced only with `--force`. */
export async function writePage(target: string, content: string, force: boolean): Promise<void> {
  await writeAside(path.resolve(target), content, { force });
  process.stderr.write(`Page written to ${target}\n`);
}
