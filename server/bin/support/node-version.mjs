// Says whether this Node is new enough; written so that even a very old Node can read it and say so.

const NEEDED = [20, 19];

/** One line saying what to do, or null when this Node will do. */
export function nodeComplaint(version) {
  const parts = version.split('.').map(Number);
  const enough = parts[0] > NEEDED[0] || (parts[0] === NEEDED[0] && parts[1] >= NEEDED[1]);
  if (enough) return null;
  return (
    'patchyard: this is Node ' +
    version +
    ', and Node ' +
    NEEDED.join('.') +
    ' or newer is needed. Install one from https://nodejs.org, then run the same command again.'
  );
}

/** Ends the process with one line and exit code 1 when this Node is too old. */
export function requireNode() {
  const complaint = nodeComplaint(process.versions.node);
  if (complaint === null) return;
  console.error(complaint);
  process.exit(1);
}
