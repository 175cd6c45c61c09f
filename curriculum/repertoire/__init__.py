"""The repertoire as data: an edition, its exercises, and how a document becomes one."""
