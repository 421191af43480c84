using NodaTime;
using NodaTime.TimeZones;

namespace Broodtide.Cli.Door;

/// <summary>What the command line takes from the machine it runs on; tests give it another one.</summary>
internal sealed record Surroundings
{
    public required TextWriter Out { get; init; }

    public required TextWriter Error { get; init; }

    public required IClock Clock { get; init; }

    /// <summary>The zone of the machine unless told otherwise; looked for when first asked for, which takes a while.</summary>
    public DateTimeZone Zone
    {
        get => field ??= ZoneOfThisMachine();
        init;
    }

    /// <summary>The value of an environment variable, or none.</summary>
    public required Func<string, string?> Variable { get; init; }

    /// <summary>Makes UUIDs of version 7.</summary>
    public required Func<Guid> NewId { get; init; }

    /// <summary>Name of the person at the machine.</summary>
    public required string UserName { get; init; }

    /// <summary>Where the person's data lies.</summary>
    public required string DataFolder { get; init; }

    public static Surroundings OfThisMachine() =>
        new()
        {
            Out = Console.Out,
            Error = Console.Error,
            Clock = SystemClock.Instance,
            Variable = Environment.GetEnvironmentVariable,
            NewId = Guid.CreateVersion7,
            UserName = Environment.UserName,
            DataFolder = Environment.GetFolderPath(
                Environment.SpecialFolder.LocalApplicationData,
                Environment.SpecialFolderOption.DoNotVerify
            ),
        };

    private static DateTimeZone ZoneOfThisMachine()
    {
        try
        {
            return DateTimeZoneProviders.Tzdb.GetSystemDefault();
        }
        catch (DateTimeZoneNotFoundException)
        {
            return DateTimeZone.Utc;
        }
    }
}
