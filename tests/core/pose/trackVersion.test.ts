import { expect, test } from 'vitest';
import { TRACK_VERSION } from '../../../core/pose/trackKey.js';

test('no kept track outlives a change of what is read from a film', async () => {
  // The digest is of the built code, as the evaluation takes it.
  const built = new URL('../../../dist/fixtures/evaluation/sceneKey.js', import.meta.url);
  const { poseCodeDigest } = (await import(built.href)) as { poseCodeDigest(): string };
  // Where this fails, count the version up and write both down; where nothing that is read has changed, the digest alone.
  expect({ version: TRACK_VERSION, code: poseCodeDigest() }).toEqual({
    version: 7,
    code: '13a45c032c123b2af68be67c',
  });
});
