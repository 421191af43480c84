using NodaTime;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>
/// Readings, hours and closed days lie in a table a month each, so that what was written long ago is not touched by
/// what is written now. The tables are made ahead; a month that nobody foresaw is made when it comes.
/// </summary>
internal static class PostgresMonths
{
    /// <summary>How many months are there ahead of time, the one of now counted.</summary>
    public const int Ahead = 4;

    // Belongs to the owner of the tables, so that a server which may not make tables gets its months all the same.
    private const string MakeMonths = """
        CREATE INDEX block_by_name ON block (sha256);
        CREATE FUNCTION make_months(first date, months integer) RETURNS integer
        LANGUAGE plpgsql SECURITY DEFINER SET search_path FROM CURRENT AS $body$
        DECLARE
            parent text;
            month date;
            following date;
            made integer := 0;
        BEGIN
            IF months NOT BETWEEN 1 AND 2400 THEN
                RAISE EXCEPTION 'months out of range';
            END IF;
            PERFORM 1 FROM life WHERE one = 1 FOR UPDATE;
            FOR number IN 0..months - 1 LOOP
                month := (date_trunc('month', first::timestamp) + make_interval(months => number))::date;
                following := (month + interval '1 month')::date;
                FOREACH parent IN ARRAY ARRAY['reading', 'hour', 'block'] LOOP
                    IF to_regclass(parent || '_' || to_char(month, 'YYYY_MM')) IS NULL THEN
                        EXECUTE format(
                            'CREATE TABLE %I PARTITION OF %I FOR VALUES FROM (%s) TO (%s)',
                            parent || '_' || to_char(month, 'YYYY_MM'), parent,
                            CASE parent WHEN 'block' THEN month - date '1970-01-01'
                                 ELSE extract(epoch FROM month)::bigint * 1000 END,
                            CASE parent WHEN 'block' THEN following - date '1970-01-01'
                                 ELSE extract(epoch FROM following)::bigint * 1000 END
                        );
                        made := made + 1;
                    END IF;
                END LOOP;
            END LOOP;
            RETURN made;
        END
        $body$;
        REVOKE ALL ON FUNCTION make_months(date, integer) FROM PUBLIC;
        """;

    /// <summary>A step of the readings' tables as this database reads it.</summary>
    public static string Schema(string step)
    {
        var made = PostgresHouse.Schema(step);
        return made.Contains("CREATE TABLE reading(", StringComparison.Ordinal)
            ? made.Replace(
                    "  PRIMARY KEY (sensor, at)\n)",
                    "  PRIMARY KEY (sensor, at)\n) PARTITION BY RANGE (at)",
                    StringComparison.Ordinal
                )
                .Replace("sha256 TEXT NOT NULL PRIMARY KEY", "sha256 text NOT NULL", StringComparison.Ordinal)
                .Replace(
                    "  UNIQUE (sensor, day)\n)",
                    "  PRIMARY KEY (sensor, day)\n) PARTITION BY RANGE (day)",
                    StringComparison.Ordinal
                )
                + "\n"
                + MakeMonths
            : made;
    }

    /// <summary>Makes the tables of some months that are not there.</summary>
    public static int Make(NpgsqlConnection connection, YearMonth first, int months) =>
        connection.Ask<int>(
            "SELECT make_months(@first, @months)",
            ("first", new DateOnly(first.Year, first.Month, 1)),
            ("months", months)
        );

    /// <summary>The months that are there.</summary>
    public static HashSet<YearMonth> There(NpgsqlConnection connection) =>
        [
            .. connection
                .List(
                    row => row.GetString(0),
                    """
                    SELECT part.relname::text FROM pg_catalog.pg_inherits
                    JOIN pg_catalog.pg_class part ON part.oid = inhrelid
                    WHERE inhparent = 'reading'::regclass
                    """
                )
                .Select(name => name.Split('_'))
                .Where(parts => parts.Length == 3)
                .Select(parts => new YearMonth(
                    int.Parse(parts[1], System.Globalization.CultureInfo.InvariantCulture),
                    int.Parse(parts[2], System.Globalization.CultureInfo.InvariantCulture)
                )),
        ];

    /// <summary>The month that a time in milliseconds since 1970 UTC lies in.</summary>
    public static YearMonth MonthOf(long milliseconds) =>
        Instant.FromUnixTimeMilliseconds(milliseconds).InUtc().Date.ToYearMonth();
}
