using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>The least that a server needs: it reads and writes rows, and owns nothing.</summary>
internal static class PostgresRights
{
    public static bool Give(NpgsqlConnection connection, string schema, string role)
    {
        // A name cannot be a value of these statements: the database itself puts it in quotes.
        var quoted = connection.Ask<string>("SELECT quote_ident(@role)", ("role", role));
        connection.Run(
            $"""
            GRANT USAGE ON SCHEMA {schema} TO {quoted};
            GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA {schema} TO {quoted};
            REVOKE INSERT, UPDATE, DELETE ON {schema}.about FROM {quoted};
            GRANT USAGE ON ALL SEQUENCES IN SCHEMA {schema} TO {quoted};
            GRANT EXECUTE ON FUNCTION {schema}.make_months(date, integer) TO {quoted};
            """
        );
        return true;
    }
}
