/**
 * Hashes of the two texts that the pages may run and style themselves with (Content Security Policy level 3,
 * hash-source). A test compares them with the texts and, when one was changed, prints the new value to put here.
 */
export const STYLE_HASH = 'sha256-s1zf+V9gK2OTchXXZeVPALERqgM98IWwIE2KWsbs984=';
export const SCRIPT_HASH = 'sha256-FDgdt1eH0cnOx/KGgOQdJ/FQePXyPoEfQTFoEJis8D8=';
