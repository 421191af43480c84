using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Units;

namespace Broodtide.Workbench.Recording;

/// <summary>Counts ten times the last one of the same water: an eye or a finger slipped, or many were missed before.</summary>
internal static class CountDoubts
{
    private const double Tenfold = 9.5;

    public static IEnumerable<Question> Of(Fact fact, Happened happened, House house)
    {
        if (
            Told(fact, house) is not { } told
            || Last(told.Vessel, told.Kind, happened, house) is not { } last
            || last <= 0
            || told.Number < Tenfold * last
        )
        {
            yield break;
        }

        yield return new(
            new Remark("count-tenfold", new("number", told.Number), new("lastNumber", last)),
            Likelier: Tenth(fact)
        );
    }

    // What is comparable with what: all seen in a vessel; larvae a litre of samples; juveniles in fresh water.
    private enum Counted
    {
        Whole,
        PerLitre,
        Juveniles,
    }

    private static (VesselId Vessel, double Number, Counted Kind)? Told(Fact fact, House house) =>
        fact switch
        {
            CountMade { Samples.Count: > 0 } count when count.Samples.All(s => s.Volume is null) => (
                count.Vessel,
                count.Samples.Average(sample => (double)sample.Seen),
                Counted.Whole
            ),
            CountMade { Samples.Count: > 0 } count
                when count.Samples.Sum(sample => sample.Volume.AsVolume()?.Litres ?? 0)
                    is > 0
                        and var litres => Sampled(
                count.Vessel,
                count.Samples.Sum(sample => (double)sample.Seen) / litres,
                house
            ),
            CrossingMade { Number: { } number } crossing => (crossing.To, number, Counted.Whole),
            JuvenilesCounted counted => (counted.Vessel, counted.Number, Counted.Juveniles),
            _ => null,
        };

    // Larvae a litre tell of all in a vessel whose size is known: then every way of counting can be compared.
    private static (VesselId, double, Counted) Sampled(VesselId vessel, double perLitre, House house) =>
        house.Vessel(vessel).Capacity is { } capacity
            ? (vessel, perLitre * capacity.Litres, Counted.Whole)
            : (vessel, perLitre, Counted.PerLitre);

    private static double? Last(VesselId vessel, Counted kind, Happened happened, House house)
    {
        double? last = null;
        foreach (var occurrence in house.Account.About(Subject.Of(vessel)))
        {
            if (
                occurrence.Happened.Earliest <= happened.Earliest
                && occurrence.Fact is CountMade or JuvenilesCounted
                && Told(occurrence.Fact, house) is { } earlier
                && earlier.Vessel == vessel
                && earlier.Kind == kind
            )
            {
                last = earlier.Number;
            }
        }

        return last;
    }

    // A nought too many; what does not end in one gives no likelier number.
    private static Fact? Tenth(Fact fact) =>
        fact switch
        {
            CountMade count when count.Samples.All(sample => sample.Seen % 10 == 0) => count with
            {
                Samples = [.. count.Samples.Select(sample => sample with { Seen = sample.Seen / 10 })],
            },
            CrossingMade { Number: { } number } crossing when number % 10 == 0 => crossing with
            {
                Number = number / 10,
            },
            JuvenilesCounted counted when counted.Number % 10 == 0 => counted with
            {
                Number = counted.Number / 10,
            },
            _ => null,
        };
}
