import { mkdir, readdir, readFile, rm, stat, utimes } from 'node:fs/promises';
import { join } from 'node:path';
import { writeAside } from './media/writeAside.js';

/** Files of one kind, kept in a folder under keys to save time: to lose one costs no more than making it again. */
export interface KeptFiles {
  /** What `decode` makes of the file under a key; null where there is none, or `decode` throws. Marks it as used. */
  read<Value>(key: string, decode: (content: Buffer) => Value): Promise<Value | null>;
  /** Keeps a file, and drops those unused for longest where all of this kind are larger than allowed. */
  write(key: string, content: string | Uint8Array): Promise<void>;
  /** What is kept, the most recently used first. */
  list(): Promise<readonly KeptFile[]>;
  /** Drops everything of this kind. @returns how many files there were. */
  clear(): Promise<number>;
}

export interface KeptFile {
  readonly key: string;
  readonly bytes: number;
  readonly usedAt: Date;
}

/**
 * @param folder made when the first file is written.
 * @param ending of the names of this kind of file, with its dot.
 * @param maximumBytes that all of them may take together.
 */
export function openKeptFiles(folder: string, ending: string, maximumBytes: number): KeptFiles {
  const fileOf = (key: string) => join(folder, `${key}${ending}`);

  const list = async (): Promise<readonly KeptFile[]> => {
    const names = await readdir(folder).catch(() => []);
    const entries = await Promise.all(
      names
        .filter((name) => name.endsWith(ending) && !name.startsWith('.'))
        .map(async (name) => {
          const facts = await stat(join(folder, name)).catch(() => null);
          if (facts === null) return [];
          return [{ key: name.slice(0, -ending.length), bytes: facts.size, usedAt: facts.mtime }];
        }),
    );
    return entries
      .flat()
      .sort((a, b) => b.usedAt.getTime() - a.usedAt.getTime() || a.key.localeCompare(b.key));
  };

  return {
    list,
    async read(key, decode) {
      try {
        const value = decode(await readFile(fileOf(key)));
        const now = new Date();
        await utimes(fileOf(key), now, now).catch(() => undefined);
        return value;
      } catch {
        return null;
      }
    },
    async write(key, content) {
      await mkdir(folder, { recursive: true });
      await writeAside(fileOf(key), content, { force: true });
      let total = 0;
      for (const entry of await list()) {
        total += entry.bytes;
        // The file just written stays even where it is larger than all of them may be.
        if (total > maximumBytes && entry.key !== key) await rm(fileOf(entry.key), { force: true });
      }
    },
    async clear() {
      const kept = await list();
      for (const entry of kept) await rm(fileOf(entry.key), { force: true });
      return kept.length;
    },
  };
}
