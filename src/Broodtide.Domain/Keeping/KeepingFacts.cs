using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Domain.Keeping;

/// <summary>A brood is carried through from now on, under a name.</summary>
/// <param name="Run">The run.</param>
/// <param name="Brood">The brood.</param>
/// <param name="Name">What it is called here.</param>
/// <param name="Species">Scientific name: whose numbers apply.</param>
public sealed record RunStarted(RunId Run, BroodId Brood, string Name, string? Species = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Run), Subject.Of(Brood)];
}

/// <summary>How a run ended.</summary>
[JsonConverter(typeof(Words<RunEnd>))]
public enum RunEnd
{
    /// <summary>Juveniles are in fresh water.</summary>
    Home,

    /// <summary>The keeper ended it.</summary>
    GivenUp,
}

/// <summary>The keeper ended a run.</summary>
/// <param name="Run">The run.</param>
/// <param name="End">How.</param>
/// <param name="Note">Why, in the keeper's words.</param>
public sealed record RunEnded(RunId Run, RunEnd End, string? Note = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Run)];
}

/// <summary>The mains failed.</summary>
/// <param name="Note">What stood still, in the keeper's words.</param>
public sealed record PowerFailed(string? Note = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}

/// <summary>The mains came back.</summary>
/// <param name="Note">Anything worth saying.</param>
public sealed record PowerRestored(string? Note = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}

/// <summary>The keeper is, or will be, away.</summary>
/// <param name="Until">Until when, if known.</param>
/// <param name="Helper">Who looks after the animals.</param>
public sealed record KeeperLeft(Instant? Until = null, string? Helper = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}

/// <summary>The keeper is back.</summary>
public sealed record KeeperReturned : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}

/// <summary>An action that was due was done.</summary>
/// <param name="Action">Its stable key: what, for which thing, for which occasion.</param>
/// <param name="About">The vessel, brood or run it was for.</param>
/// <param name="Note">Anything worth saying.</param>
public sealed record ActionDone(string Action, Guid? About = null, string? Note = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}

/// <summary>An action that was due was left out on purpose.</summary>
/// <param name="Action">Its stable key: what, for which thing, for which occasion.</param>
/// <param name="About">The vessel, brood or run it was for.</param>
/// <param name="Reason">Why.</param>
/// <param name="Until">Until when it is put off; for good if left out.</param>
public sealed record ActionSkipped(
    string Action,
    Guid? About = null,
    string? Reason = null,
    Instant? Until = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}

/// <summary>Something worth keeping in words.</summary>
/// <param name="Text">The words.</param>
/// <param name="Vessel">About this vessel.</param>
/// <param name="Animal">About this animal.</param>
/// <param name="Run">About this run.</param>
public sealed record NoteWritten(
    string Text,
    VesselId? Vessel = null,
    AnimalId? Animal = null,
    RunId? Run = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => About.Of(Vessel, Animal, Run);
}

/// <summary>A photo was kept. The picture is a file by the hash of its bytes as stored, place data removed.</summary>
/// <param name="Sha256">64 lower-case hex figures of SHA-256 over the stored bytes.</param>
/// <param name="MediaType">Such as image/jpeg.</param>
/// <param name="Bytes">Length of the file in bytes.</param>
/// <param name="Vessel">About this vessel.</param>
/// <param name="Animal">About this animal.</param>
/// <param name="Run">About this run.</param>
/// <param name="Caption">What it shows, in the keeper's words.</param>
/// <param name="Entry">Goes with this entry: the one it began with, where it was corrected. From version 2.</param>
/// <param name="Across">Pixels across, as stored. From version 2.</param>
/// <param name="Down">Pixels down, as stored. From version 2.</param>
/// <param name="Thumbnail">The same hash of a small picture of it, kept as a file beside it. From version 2.</param>
/// <param name="PlaceKept">Whether the keeper wanted the place in the file to stay. From version 2.</param>
public sealed record PhotoAdded(
    string Sha256,
    string MediaType,
    long Bytes,
    VesselId? Vessel = null,
    AnimalId? Animal = null,
    RunId? Run = null,
    string? Caption = null,
    EntryId? Entry = null,
    int? Across = null,
    int? Down = null,
    string? Thumbnail = null,
    bool? PlaceKept = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => About.Of(Vessel, Animal, Run);

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() =>
        [("bytes", Bytes), ("across", Across), ("down", Down)];

    /// <inheritdoc/>
    private protected override Remark? Amiss() =>
        !IsHash(Sha256) ? new Remark("hash-unreadable", new("field", "sha256"), new("typed", Sha256))
        : Thumbnail is not null && !IsHash(Thumbnail)
            ? new Remark("hash-unreadable", new("field", "thumbnail"), new("typed", Thumbnail))
        : null;

    internal static bool IsHash(string text) =>
        text.Length == 2 * Digest.Length && text.All(char.IsAsciiHexDigitLower);
}

/// <summary>
/// What the software foretold, written down once a day per run and quantity, so that it can be scored honestly.
/// Where several stores write one, the earliest written is the one that counts.
/// </summary>
/// <param name="Run">The run.</param>
/// <param name="Quantity">What was foretold, such as "first-hatch".</param>
/// <param name="Day">The civil day it was made on, ISO 8601.</param>
/// <param name="Engine">Version of the software that computed it.</param>
/// <param name="KnownUntil">Entries written up to this instant were known.</param>
/// <param name="Unit">Unit code of the three points; instants are given as days since the epoch of Unix, "d".</param>
/// <param name="Low">The 5 % point.</param>
/// <param name="Middle">The median.</param>
/// <param name="High">The 95 % point.</param>
public sealed record ForecastIssued(
    RunId Run,
    string Quantity,
    string Day,
    string Engine,
    Instant KnownUntil,
    string Unit,
    double Low,
    double Middle,
    double High
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Run)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        [
            ("low", Low, double.MinValue, double.MaxValue),
            ("middle", Middle, Low, double.MaxValue),
            ("high", High, Middle, double.MaxValue),
        ];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, string? Code)> Codes() => [("unit", Unit)];

    /// <inheritdoc/>
    private protected override Remark? Amiss() =>
        LocalDatePattern.Iso.Parse(Day).Success
            ? null
            : new Remark("day-unreadable", new("field", "day"), new("typed", Day));
}

/// <summary>
/// The keeper's own value for a number of a species profile. The profile's value stays beside it; retracting the
/// entry undoes the choice.
/// </summary>
/// <param name="Species">Scientific name of the profile.</param>
/// <param name="Quantity">The number's code in the profile.</param>
/// <param name="Unit">Unit as the profile writes it.</param>
/// <param name="Value">The value chosen, if it is one number.</param>
/// <param name="Low">The lower end chosen, if it is a range.</param>
/// <param name="High">The upper end chosen, if it is a range.</param>
/// <param name="Reason">Why.</param>
public sealed record ProfileValueChosen(
    string Species,
    string Quantity,
    string Unit,
    double? Value = null,
    double? Low = null,
    double? High = null,
    string? Reason = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        [
            ("value", Value, double.MinValue, double.MaxValue),
            ("low", Low, double.MinValue, double.MaxValue),
            ("high", High, Low ?? double.MinValue, double.MaxValue),
        ];
}

/// <summary>
/// The body of an entry that takes another back or has it erased. What it is aimed at stands in the envelope.
/// </summary>
/// <param name="Reason">Why.</param>
public sealed record EntryTakenBack(string? Reason = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}

internal static class About
{
    public static IEnumerable<Subject> Of(VesselId? vessel, AnimalId? animal, RunId? run)
    {
        if (vessel is { } v)
        {
            yield return Subject.Of(v);
        }

        if (animal is { } a)
        {
            yield return Subject.Of(a);
        }

        if (run is { } r)
        {
            yield return Subject.Of(r);
        }

        if (vessel is null && animal is null && run is null)
        {
            yield return Subject.House;
        }
    }
}
