using Broodtide.Units;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>What a failure of the database means to a person. No secret is in what is said.</summary>
internal static class PostgresFailure
{
    public static StoreUnusableException Of(string name, NpgsqlException failure) =>
        new(
            new Remark(
                CodeOf(failure),
                new("file", name),
                new(
                    "reason",
                    failure is PostgresException told
                        ? $"{told.SqlState}: {told.MessageText}"
                        : failure.Message
                )
            ),
            failure
        );

    /// <summary>Whether the same may succeed when it is asked again, because nothing of it was done.</summary>
    public static bool IsPassing(NpgsqlException failure) =>
        failure
            is PostgresException
            {
                SqlState: PostgresErrorCodes.SerializationFailure or PostgresErrorCodes.DeadlockDetected
            };

    /// <summary>Whether the database cannot be reached just now: it starts, ends, or its line is cut.</summary>
    public static bool IsAway(NpgsqlException failure) =>
        failure switch
        {
            PostgresException told => told.SqlState
                is PostgresErrorCodes.CannotConnectNow
                    or PostgresErrorCodes.AdminShutdown
                    or PostgresErrorCodes.CrashShutdown,
            _ => failure.InnerException is IOException or System.Net.Sockets.SocketException,
        };

    private static string CodeOf(NpgsqlException failure) =>
        failure switch
        {
            PostgresException told => told.SqlState switch
            {
                PostgresErrorCodes.DataCorrupted or PostgresErrorCodes.IndexCorrupted => "store-damaged",
                PostgresErrorCodes.DiskFull => "disk-full",
                PostgresErrorCodes.LockNotAvailable
                or PostgresErrorCodes.QueryCanceled
                or PostgresErrorCodes.SerializationFailure
                or PostgresErrorCodes.DeadlockDetected
                or PostgresErrorCodes.TooManyConnections => "store-busy",
                PostgresErrorCodes.InsufficientPrivilege or PostgresErrorCodes.ReadOnlySqlTransaction =>
                    "store-read-only",
                PostgresErrorCodes.InvalidPassword
                or PostgresErrorCodes.InvalidAuthorizationSpecification
                or PostgresErrorCodes.InvalidCatalogName => "store-cannot-be-opened",
                _ => IsAway(told) ? "store-away" : "store-failed",
            },
            _ => IsAway(failure) || failure.InnerException is TimeoutException
                ? "store-away"
                : "store-failed",
        };
}
