using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Counting;
using NodaTime;

namespace Broodtide.Workbench.Looking;

/// <summary>How a known number of a set-up came to be known.</summary>
public enum KnownBy
{
    /// <summary>Counted one by one, as at a crossing.</summary>
    OneByOne,

    /// <summary>A person marked before the program's marks were shown.</summary>
    TwoLookers,

    /// <summary>A person corrected the program's marks: what nobody saw is missing.</summary>
    Corrected,
}

/// <summary>A count in pictures whose number is known.</summary>
/// <param name="Told">Its entry.</param>
/// <param name="Point">The known number and what the program counted.</param>
/// <param name="By">How it is known.</param>
public sealed record SetupPoint(Occurrence Told, CalibrationPoint Point, KnownBy By);

/// <summary>One container under one lamp: its points and what they make.</summary>
/// <param name="Name">As the keeper calls it, the way it was written last.</param>
/// <param name="Points">The points in the order of the account.</param>
/// <param name="Calibration">What they make.</param>
public sealed record SetupCalibration(
    string Name,
    IReadOnlyList<SetupPoint> Points,
    CountCalibration Calibration
);

/// <summary>
/// What the keeper's own containers and lamps teach of the program's counts, from numbers that were known anyway and
/// from marks that a person looked over.
/// </summary>
public static class SetupCalibrations
{
    /// <summary>The names of all set-ups a house has counted with, each once, without regard to capitals.</summary>
    public static IReadOnlyList<string> Names(House house) =>
        [
            .. Counts(house)
                .Select(told => ((CountMade)told.Fact).Pictures!.Setup!.Trim())
                .GroupBy(name => name, StringComparer.OrdinalIgnoreCase)
                .Select(names => names.Last())
                .Order(StringComparer.OrdinalIgnoreCase),
        ];

    /// <summary>Every set-up with its calibration, by name.</summary>
    public static IReadOnlyList<SetupCalibration> All(House house) =>
        [.. Names(house).Select(name => Of(house, name))];

    /// <summary>The calibration of a set-up; one without points where the house never counted with it.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="name">What the keeper calls it; capitals and blanks about it do not matter.</param>
    /// <param name="now">Later counts are passed over; none passes over none.</param>
    public static SetupCalibration Of(House house, string name, Instant? now = null)
    {
        var wanted = name.Trim();
        var points = Counts(house)
            .Where(told => now is null || told.Happened.Middle <= now)
            .Where(told =>
                string.Equals(
                    ((CountMade)told.Fact).Pictures!.Setup!.Trim(),
                    wanted,
                    StringComparison.OrdinalIgnoreCase
                )
            )
            .Select(Point)
            .OfType<SetupPoint>()
            .ToList();
        return new(wanted, points, CountCalibration.Of([.. points.Select(point => point.Point)]));
    }

    private static IEnumerable<Occurrence> Counts(House house) =>
        house.Account.Occurrences.Where(told =>
            told.Fact is CountMade { Pictures.Setup: { } setup } && setup.Trim().Length > 0
        );

    private static SetupPoint? Point(Occurrence told)
    {
        var pictures = ((CountMade)told.Fact).Pictures!;
        double counted = pictures.Counts[0].Marked;
        if (pictures.Known is { } known)
        {
            return new(told, new(known, counted), KnownBy.OneByOne);
        }

        // What both lookers marked tells of what both missed, but only of what can be seen.
        return Markings.Lookers(pictures) is { } lookers
            ? new(
                told,
                new(Math.Max(lookers.Chapman, pictures.Different()), counted),
                pictures.Person == PersonLooked.Before ? KnownBy.TwoLookers : KnownBy.Corrected
            )
            : null;
    }
}
