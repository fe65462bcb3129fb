import description from '../../package.json' with { type: 'json' };

/** Version of the tool, from the package's own description. */
export const VERSION: string = description.version;
