using System.Collections.Immutable;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Settling;
using Broodtide.Workbench.Species;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.BadDays;

/// <summary>What breathes in a vessel that has no twin of its own.</summary>
/// <param name="Number">How many.</param>
/// <param name="AsLarvaMicrograms">Dry larvae that breathe as much as one of them by the twin's figure, micrograms.</param>
/// <param name="Assumed">What is supposed.</param>
internal sealed record Breathers(Interval Number, double AsLarvaMicrograms, ImmutableArray<Remark> Assumed)
{
    // An adult of a gram breathes about 0.35 mg of oxygen an hour at 25 degC (order of published figures for small
    // freshwater shrimps, from memory): as much as 70 mg of larvae by the twin's figure. A juvenile of 1.67 mg as 0.4 mg.
    private const double GramAsLarvaMicrograms = 70_000;
    private const double JuvenileAsLarvaMicrograms = 400;
    private const int UnknownAdults = 10;

    // Where the profile does not say when a juvenile is adult: this project's assumption.
    private const double UsualDaysToAdult = 90;

    /// <summary>What breathes in a vessel, or why nobody knows.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="vessel">The vessel.</param>
    public static Parsed<Breathers> In(Outlook outlook, Vessel vessel) =>
        vessel.Role is VesselRole.Nursery || WayHome.Began(vessel) is not null ? Juveniles(outlook, vessel)
        : vessel.Role is VesselRole.BroodTank or VesselRole.HatchingBox ? Adults(outlook, vessel)
        : vessel.Role is VesselRole.LarvalVessel && outlook.PopulationIn(vessel.Id) is null
            ? Parsed<Breathers>.Of(new(Interval.FromPoints(0, 0, 0), JuvenileAsLarvaMicrograms, []))
        : NotKnown(vessel);

    private static Parsed<Breathers> NotKnown(Vessel vessel) =>
        Parsed<Breathers>.No("badday-breath-not-known", new Argument("vessel", vessel.Id));

    private static Parsed<Breathers> Juveniles(Outlook outlook, Vessel vessel)
    {
        var profile = outlook.Profiles.Of(vessel);
        if (NurseryBook.Of(outlook.House, vessel.Id, profile, outlook.Now) is not { Alive: { } alive } book)
        {
            return NotKnown(vessel);
        }

        // They grow from what came home to a grown one, each day by the same share; the oldest stand for all.
        var toAdult =
            profile.Find("juvenile-to-adult-days") is { } span && (span.Low ?? span.Value) is { } least
                ? least
                : UsualDaysToAdult;
        var days = book.Home.Count > 0 ? (outlook.Now - book.Home[0].When.Earliest).TotalDays : toAdult;
        var grams = (profile.Find(AdultQuantityCodes.Mass)?.Value ?? 1000) / 1000;
        var grown = Math.Pow(
            GramAsLarvaMicrograms * grams / JuvenileAsLarvaMicrograms,
            Math.Clamp(days / toAdult, 0, 1)
        );
        return Parsed<Breathers>.Of(
            new(
                Interval.FromPoints(0.5 * alive.Low, alive.Middle, 2 * alive.High),
                JuvenileAsLarvaMicrograms * grown,
                [new Remark("badday-juveniles-grow", new("adultGrams", grams), new("number", toAdult))]
            )
        );
    }

    private static Parsed<Breathers> Adults(Outlook outlook, Vessel vessel)
    {
        var adults = outlook
            .House.Animals.Where(animal => animal.Died is null && animal.PlaceAt(outlook.Now) == vessel.Id)
            .ToList();
        var profiles = adults.Select(animal => outlook.Profiles.Of(animal.Species)).ToList();
        if (profiles.Count == 0)
        {
            profiles.Add(outlook.Profiles.Of(vessel));
        }

        if (profiles.Find(profile => profile.Find(AdultQuantityCodes.Mass) is null) is { } unweighed)
        {
            return Parsed<Breathers>.No(
                "badday-breath-mass-not-known",
                new("vessel", vessel.Id),
                new("species", unweighed.ScientificName)
            );
        }

        var grams = profiles.Max(profile => profile.Find(AdultQuantityCodes.Mass)!.Value ?? 1000) / 1000;
        var isCounted = vessel.Role is not VesselRole.BroodTank || adults.Count >= 2;
        var number = isCounted ? adults.Count : UnknownAdults;
        return Parsed<Breathers>.Of(
            new(
                isCounted
                    ? Interval.FromPoints(0.7 * number, number, 2 * number)
                    : Interval.FromPoints(0.3 * number, number, 3 * number),
                GramAsLarvaMicrograms * grams,
                [
                    .. isCounted
                        ? Array.Empty<Remark>()
                        : [new Remark("badday-adults-unknown", new Argument("number", (double)number))],
                    new Remark("badday-adults-weigh", new Argument("adultGrams", grams)),
                ]
            )
        );
    }
}
