/**
 * Hashes of the two texts that the pages may run and style themselves with (Content Security Policy level 3,
 * hash-source). A test compares them with the texts and, when one was changed, prints the new value to put here.
 */
export const STYLE_HASH = 'sha256-ry5Ah20fuFEkv6vRTA/muFIZ0WK2ktogMfXPnsoQGFc=';
export const SCRIPT_HASH = 'sha256-6XWLcWNDrBN4TEvfy0YvsiqSq0EQtLlUt7XYEEwcfEU=';
