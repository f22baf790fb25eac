import { describe, expect, test } from 'vitest';
import { restsBetweenFilms } from '../../../analysis/session/restBetweenFilms.js';

const film = (stampedSeconds: number | null, durationSeconds: number) => ({
  stampedSeconds,
  durationSeconds,
  firstMoveSeconds: 3,
  lastMoveSeconds: durationSeconds - 4,
});

describe('rest between films', () => {
  test('films of equal length give one value whichever end the phone stamps', () => {
    // 150 s from stamp to stamp, 3 s to the first move; the last move was 46 s in: 107 s.
    expect(restsBetweenFilms([film(1000, 50), film(1150, 50)])).toEqual([
      { leastSeconds: 106, mostSeconds: 108 },
    ]);
  });

  test('films of different length give a range that covers both', () => {
    // Stamped at the start: 150 + 3 − 46 = 107 s. At the end the second began 30 s earlier: 107 + 50 − 80 = 77 s.
    expect(restsBetweenFilms([film(1000, 50), film(1150, 80)])).toEqual([
      { leastSeconds: 76, mostSeconds: 108 },
    ]);
  });

  test('where stamps at the end would make two films overlap, they are stamped at the start, all of them', () => {
    // The third film would begin at 1240 − 120 = 1120 and end after 1150, were its end stamped.
    const rests = restsBetweenFilms([film(1000, 50), film(1150, 80), film(1240, 120)]);
    expect(rests).toEqual([
      { leastSeconds: 106, mostSeconds: 108 },
      { leastSeconds: 16, mostSeconds: 18 },
    ]);
  });

  test('where stamps at the start would make two films overlap, they are stamped at the end', () => {
    // The first lasts 200 s, and 120 s later the second is stamped; stamped at the end it began 70 s after.
    expect(restsBetweenFilms([film(1000, 200), film(1120, 50)])).toEqual([
      { leastSeconds: 76, mostSeconds: 78 },
    ]);
  });

  test('nothing is told without a stamp, without reps, or where the stamps contradict themselves', () => {
    expect(restsBetweenFilms([film(null, 50), film(1150, 50)])).toEqual([null]);
    expect(restsBetweenFilms([film(1000, 50), { ...film(1150, 50), firstMoveSeconds: null }])).toEqual([
      null,
    ]);
    expect(restsBetweenFilms([film(1000, 200), film(1010, 200)])).toEqual([null]);
  });
});
