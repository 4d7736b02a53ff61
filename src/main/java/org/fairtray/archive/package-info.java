/**
 * Shared trials in a database: each kept once, under the hash of its content, and found again. It stores what it is told
 * and opens no pack. A file of SQLite or a PostgreSQL server holds the same tables and answers alike.
 */
package org.fairtray.archive;
