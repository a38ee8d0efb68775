import program from '../../../package.json' with { type: 'json' }

/** The version of this program, as its package says. */
export const programVersion = program.version

/** The SPDX name of its licence, as its package says. */
export const programLicence = program.license
