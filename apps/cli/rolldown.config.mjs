/**
 * The front door in one file: the words and options of every verb, which each start reads. What a verb loads when it runs
 * stays where its app has it, beside the threads that it starts and the files by which its build is known: of another app
 * by the way from this one, of a package by its name, so that both hold wherever npm puts them side by side.
 */
export default {
  input: 'dist/main.js',
  platform: 'node',
  output: { file: 'dist/tubgap.js', format: 'esm', sourcemap: true },
  plugins: [
    {
      name: 'leave-what-runs',
      async resolveId(source, importer, { kind }) {
        if (kind !== 'dynamic-import') return undefined;
        if (!source.startsWith('.')) return { id: source, external: true };
        const found = await this.resolve(source, importer, { kind, skipSelf: true });
        return { id: found.id, external: 'relative' };
      },
    },
  ],
};
