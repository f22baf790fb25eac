import { Failure } from '../../core/failure.js';
import { type Ffmpeg, locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import type { Check } from './check.js';

const SOURCES: Record<Ffmpeg['source'], string> = {
  option: 'named by --ffmpeg',
  environment: 'named by FFMPEG_PATH',
  'ffmpeg-static': 'from the package ffmpeg-static',
  path: 'found on PATH',
  'bundled-2018': 'the build of 2018 in @ffmpeg-installer',
};

export async function checkFfmpeg(explicitPath: string | undefined): Promise<Check> {
  try {
    const { path, version, source, warning } = await locateFfmpeg({ explicitPath });
    const detail = `${version}, ${path}, ${SOURCES[source]}`;
    if (warning === null) return { name: 'ffmpeg', state: 'ok', detail, remedy: null };
    return { name: 'ffmpeg', state: 'mind', detail, remedy: warning };
  } catch (thrown) {
    if (!(thrown instanceof Failure)) throw thrown;
    return { name: 'ffmpeg', state: 'missing', detail: thrown.message, remedy: thrown.remedy };
  }
}
