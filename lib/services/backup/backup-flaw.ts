/** Why a file cannot be restored, as a sentence for the owner. Whoever throws it has changed nothing. */
export class BackupFlaw extends Error {}
