// The tables of a collection, and how an older database is brought up to date. Each column is explained in the schema
// itself, where `sqlite3 FILE .schema` shows it.
#pragma once

#include "io/database/statement.hpp"

namespace insideline::io {

constexpr int schema_version = 6;           ///< PRAGMA user_version
constexpr int application_id = 0x494C534C;  ///< PRAGMA application_id: "ILSL"

/// Makes the tables in a new database, unless it is only read, brings an older one up to date, and refuses what another
/// program or a newer version of this one made. Throws DatabaseError.
void prepare_schema(Connection& connection, Access access = Access::write);

/// The statements that lead from version `from` to the next; 0 is an empty database.
const char* schema_step(int from);

}  // namespace insideline::io
