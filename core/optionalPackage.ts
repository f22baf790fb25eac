/**
 * Loads a package that need not be installed. Some throw on import where they have no build for the platform, which
 * counts as absent.
 *
 * @returns the package, or null.
 */
export async function importOptional<Shape>(name: string): Promise<Shape | null> {
  try {
    return (await import(name)) as Shape;
  } catch {
    return null;
  }
}
