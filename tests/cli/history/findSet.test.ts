import { copyFileSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import { withHistory } from '../../../cli/history/file/history.js';
import { findSet, namedSet } from '../../../cli/history/sets/findSet.js';
import { readTrack } from '../../../cli/history/sets/readSets.js';
import { NO_DETAILS } from '../../../cli/history/sets/savedSet.js';
import { keepSet } from '../../../cli/pipeline/keepSet.js';
import type { FilmFacts } from '../../../core/media/film.js';
import { sampleSet } from '../views/page/sampleSet.js';
import { inventedReport } from './invented.js';
import { temporaryHistory } from './temporaryHistory.js';

const place = temporaryHistory();

/** A set of a film that was named as seen from the folder the command ran in. */
async function keptSet() {
  const history = place();
  const folder = path.join(path.dirname(history), 'films');
  mkdirSync(folder);
  const film = path.join(folder, 'row.mp4');
  writeFileSync(film, 'these bytes stand for a film');
  const named = path.relative(process.cwd(), film);
  const request = {
    ...{ exercise: findExercise('single-arm-row'), exerciseChosenBy: 'user' as const },
    ...{ plan: null, side: null, mirrored: false },
  };
  await keepSet(
    {
      film: { file: named, recordedAt: null } as FilmFacts,
      track: sampleSet({ repsPerSide: 1, framesPerSecond: 10 }).track,
      analysis: { report: inventedReport({ film: named }), curves: [] },
      request,
      details: NO_DETAILS,
    },
    { history },
  );
  const find = async (name: string) => {
    const wanted = await namedSet(name);
    return withHistory(history, 'reading', (open) => findSet(open, wanted).id);
  };
  return { history, folder, film, find };
}

describe('a saved set', () => {
  test('remembers where its film lies, whatever folder the next command runs in', async () => {
    const { history, film } = await keptSet();
    withHistory(history, 'reading', (open) => expect(readTrack(open, 1)?.film.file).toBe(film));
  });

  test('is found by its film under another name', async () => {
    const { folder, film, find } = await keptSet();
    const copy = path.join(folder, 'copy.mp4');
    copyFileSync(film, copy);
    expect(await find(copy)).toBe(1);
  });

  test('is not taken for that of another film of the same name', async () => {
    const { film, find } = await keptSet();
    writeFileSync(film, 'another film');
    await expect(find(film)).rejects.toThrow(/is in no saved set/);
  });

  test('is found by the name of a film that is gone', async () => {
    const { film, find } = await keptSet();
    rmSync(film);
    expect(await find('row.mp4')).toBe(1);
    expect(await find(film)).toBe(1);
    await expect(find('squat.mp4')).rejects.toThrow(/no saved set of squat.mp4/);
  });
});
