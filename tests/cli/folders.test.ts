import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { cacheFolder, dataFolder } from '../../cli/folders.js';

const home = join('/home', 'lifter');

describe('folders', () => {
  it('follows the XDG base directory specification 0.8 on Linux', () => {
    expect(dataFolder({ environment: {}, platform: 'linux', home })).toBe(
      join(home, '.local/share/tempofilm'),
    );
    expect(cacheFolder({ environment: {}, platform: 'linux', home })).toBe(join(home, '.cache/tempofilm'));
    const environment = { XDG_DATA_HOME: '/data', XDG_CACHE_HOME: '/fast' };
    expect(dataFolder({ environment, platform: 'linux', home })).toBe('/data/tempofilm');
    expect(cacheFolder({ environment, platform: 'linux', home })).toBe('/fast/tempofilm');
  });

  it('treats an empty or relative variable as not set, as that specification asks', () => {
    const environment = { XDG_CACHE_HOME: '', XDG_DATA_HOME: 'here' };
    expect(cacheFolder({ environment, platform: 'linux', home })).toBe(join(home, '.cache/tempofilm'));
    expect(dataFolder({ environment, platform: 'linux', home })).toBe(join(home, '.local/share/tempofilm'));
  });

  it('uses the usual places of the other systems', () => {
    expect(cacheFolder({ environment: {}, platform: 'darwin', home })).toBe(
      join(home, 'Library/Caches/tempofilm'),
    );
    const environment = { LOCALAPPDATA: '/local', APPDATA: '/roaming' };
    expect(cacheFolder({ environment, platform: 'win32', home })).toBe('/local/tempofilm/cache');
    expect(dataFolder({ environment, platform: 'win32', home })).toBe('/roaming/tempofilm');
  });

  it('keeps everything under TEMPOFILM_HOME where that is set', () => {
    const environment = { TEMPOFILM_HOME: '/training', XDG_DATA_HOME: '/data' };
    expect(dataFolder({ environment, platform: 'linux', home })).toBe('/training');
    expect(cacheFolder({ environment, platform: 'darwin', home })).toBe('/training/cache');
  });
});
