using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Imaging.Lengths;
using Broodtide.Units;

namespace Broodtide.Workbench.Looking;

/// <summary>Larvae of a run that were measured at one look.</summary>
/// <param name="Told">Its entry.</param>
/// <param name="Measured">What it says.</param>
/// <param name="AgeDays">Days since their crossing; none where that is not known or several ages are mixed.</param>
/// <param name="Mean">The mean length, um: 5, 50 and 95 %; none below two larvae.</param>
public sealed record LengthsSeen(Occurrence Told, LarvaeMeasured Measured, double? AgeDays, Interval? Mean);

/// <summary>The lengths of a run by age.</summary>
/// <param name="Looks">Every look, in the order of time.</param>
/// <param name="Growth">Mean growth, or why nothing can be said of it.</param>
/// <param name="Remarks">What was left out of the growth, as codes.</param>
public sealed record RunLengths(
    IReadOnlyList<LengthsSeen> Looks,
    Parsed<GrowthFound> Growth,
    IReadOnlyList<Remark> Remarks
);

/// <summary>Growth curves from the journal.</summary>
public static class Growth
{
    // Larvae that crossed within so many days are told as of one age.
    private const double OneAgeDays = 3;

    /// <summary>The lengths of larvae of a run.</summary>
    public static RunLengths Of(House house, RunId run)
    {
        var cohorts = house
            .Cohorts.Where(cohort => cohort.Brood is { } brood && house.RunOf(brood)?.Id == run)
            .ToList();
        var looks = new List<LengthsSeen>();
        foreach (var told in house.Account.Occurrences)
        {
            if (
                told.Fact is LarvaeMeasured { Micrometres: { Count: > 0 } lengths } measured
                && Of(measured, told, house.Cohorts, cohorts) is { Count: > 0 } of
            )
            {
                looks.Add(
                    new(
                        told,
                        measured,
                        Age(of, told),
                        LengthGrowth.Mean([.. lengths.Select(it => it.Middle)])
                    )
                );
            }
        }

        looks = [.. looks.OrderBy(look => look.Told.Happened.Middle)];
        var without = looks.Count(look => look.AgeDays is null);
        return new(
            looks,
            LengthGrowth.Of([
                .. looks
                    .Where(look => look.AgeDays is not null)
                    .Select(look => new LengthLook(
                        look.AgeDays!.Value,
                        [.. look.Measured.Micrometres!.Select(it => it.Middle)]
                    )),
            ]),
            without > 0 ? [new Remark("lengths-without-age", new Argument("looks", without))] : []
        );
    }

    // The cohorts whose larvae they may be; none where they are of another run, or may be.
    private static List<Cohort> Of(
        LarvaeMeasured measured,
        Occurrence told,
        IEnumerable<Cohort> all,
        List<Cohort> ofRun
    )
    {
        if (measured.Cohort is { } named)
        {
            return [.. ofRun.Where(cohort => cohort.Id == named)];
        }

        var here = all.Where(cohort => cohort.VesselsAt(told.Happened.Middle).Contains(measured.Vessel))
            .ToList();
        return here.All(cohort => ofRun.Any(one => one.Id == cohort.Id)) ? here : [];
    }

    private static double? Age(List<Cohort> cohorts, Occurrence told)
    {
        if (cohorts.Any(cohort => cohort.Crossed is null))
        {
            return null;
        }

        var ages = cohorts.ConvertAll(cohort =>
            (told.Happened.Middle - cohort.Crossed!.Value.Middle).TotalDays
        );
        return ages.Max() - ages.Min() <= OneAgeDays ? ages.Average() : null;
    }
}
