/**
 * Hashes of the two texts that the pages may run and style themselves with (Content Security Policy level 3,
 * hash-source). A test compares them with the texts and, when one was changed, prints the new value to put here.
 */
export const STYLE_HASH = 'sha256-NVT+Mx9cJJe0rV3ZcgqZ8tkDGoL183kye7gMQsmP6as=';
export const SCRIPT_HASH = 'sha256-nUvWsZCTYXD48nH/Wlz0zu8SIELnX7Xkvhbde30AIEc=';
