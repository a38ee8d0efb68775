/** Says that the app's own font is on this phone already. */
export const ownFontCookie = 'coatbook-font'
