import { Failure } from '../../core/failure.js';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { requireDrawnText } from '../../core/media/subtitleFilter.js';
import type { Check } from './check.js';

const NAME = 'Drawing';

/** Whether words can be drawn on pictures: only `annotate` and `positions` need that. */
export async function checkDrawing(explicitPath: string | undefined): Promise<Check> {
  try {
    await requireDrawnText(await locateFfmpeg({ explicitPath }));
    return {
      name: NAME,
      state: 'ok',
      detail: 'ffmpeg draws words (libass and a font are there)',
      remedy: null,
    };
  } catch (thrown) {
    if (!(thrown instanceof Failure)) throw thrown;
    return {
      name: NAME,
      state: 'mind',
      detail: `${thrown.message} Annotated films and position sheets cannot be made.`,
      remedy: thrown.remedy,
    };
  }
}
