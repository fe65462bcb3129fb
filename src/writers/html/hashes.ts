/**
 * Hashes of the texts that the pages may run and style themselves with (Content Security Policy level 3,
 * hash-source). A test compares them with the texts and, when one was changed, prints the new value to put here.
 */
export const STYLE_HASH = 'sha256-gWPmL/RBLlL5ZaxhdXL1Fizf2dj8EqNG/2qws6l9xCY=';
export const SCRIPT_HASH = 'sha256-TctYIoMBfxGn5ybYhtR792OPF/inmSKPtnpzU5yAKuQ=';
export const LIVE_HASH = 'sha256-ydZ1Zg1rxjj7W3bE86MmDRn9JXAdkK4cEgj1lXHdL+Y=';
