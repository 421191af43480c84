using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>
/// Bleach, only if chosen or already poured: a dose, a day of contact, a measured residual, thiosulfate for that
/// residual and nothing else, and a test that shows none before animals go in. Never with animals inside.
/// </summary>
internal static class PlanSterilising
{
    public static IEnumerable<PlannedAction> Of(PlanScene scene, Volume water)
    {
        var (vessel, dosed, residual) = Told(scene);
        if (!scene.Wishes.Sterilise && vessel is null)
        {
            yield break;
        }

        var first = scene.FirstEvening;
        var about = vessel is null ? scene.About : Subject.Of(vessel.Id);
        var door = new DueDoor(DoorCode.WriteDisinfected, about);
        var litres = vessel?.Capacity ?? water;
        string Key(string code) => PlanBeforeHatch.Key(scene, code);
        yield return PlanBeforeHatch.Done(
            PlanBeforeHatch.Make(scene, ActionCodes.BleachWater, 8, 5) with
            {
                Reason = new Remark("plan-bleach-if-chosen", new Argument("contactHours", 24)),
                SlipsUntil = scene.Night(first, 4),
                IfItSlips = new Remark("slip-leave-bleach-out"),
                Amounts = [.. PlanAmounts.Bleach(scene, litres)],
                Cautions = [CautionCode.BleachAndAcids],
                Door = door,
            },
            dosed
        );
        var after = dosed is { } at ? at + Duration.FromDays(1) : scene.Night(first, 4);
        yield return PlanBeforeHatch.Done(
            PlanBeforeHatch.Make(scene, ActionCodes.MeasureChlorine, 5, 4) with
            {
                From = after,
                By = after + Duration.FromHours(12),
                Reason = new Remark("plan-residual-not-dose"),
                After = [Key(ActionCodes.BleachWater)],
                Cautions = [CautionCode.BleachAndAcids],
                Door = door,
            },
            residual is null ? null : dosed
        );
        var clean = residual is { MilligramsPerLitre: <= Sterilising.ZeroMilligramsPerLitre };
        yield return PlanBeforeHatch.Done(
            PlanBeforeHatch.Make(scene, ActionCodes.NeutraliseChlorine, 5, 4) with
            {
                From = after,
                By = after + Duration.FromHours(18),
                Reason = new Remark("plan-thiosulfate-from-measured"),
                // No residual, no amount: the dose that went in says nothing of what is left.
                Amounts = [.. PlanAmounts.Thiosulfate(litres, residual)],
                After = [Key(ActionCodes.MeasureChlorine)],
                Door = door,
            },
            clean ? dosed : null
        );
        yield return PlanBeforeHatch.Done(
            PlanBeforeHatch.Make(scene, ActionCodes.TestZeroChlorine, 4, 2) with
            {
                From = after,
                By = Instant.Max(after + Duration.FromHours(24), scene.Night(first, 3)),
                Reason = new Remark(
                    "plan-zero-chlorine-is-the-gate",
                    new Argument("zeroMilligramsPerLitre", Sterilising.ZeroMilligramsPerLitre)
                ),
                After = [Key(ActionCodes.NeutraliseChlorine)],
                Door = door,
            },
            clean ? dosed : null
        );
    }

    // The last disinfection of a vessel without animals since the brood began, with the last residual measured.
    private static (Vessel? Vessel, Instant? Dosed, Concentration? Residual) Told(PlanScene scene)
    {
        var since = scene.Brood.FirstSeenBerried?.Earliest ?? scene.Now - Duration.FromDays(14);
        foreach (
            var vessel in scene.House.Vessels.Where(vessel =>
                vessel.Role is VesselRole.LarvalVessel or VesselRole.Store && !scene.Inhabited(vessel.Id)
            )
        )
        {
            Instant? dosed = null;
            Concentration? residual = null;
            foreach (var occurrence in scene.House.Account.About(Subject.Of(vessel.Id)))
            {
                switch (occurrence.Fact)
                {
                    case VesselDisinfected disinfected when occurrence.Happened.Latest >= since:
                        var tested = Milligrams(disinfected.Residual);
                        if (disinfected.Dose is not null || (dosed is null && tested is null))
                        {
                            // A new dose makes an older residual worthless.
                            (dosed, residual) = (occurrence.Happened.Latest, tested);
                        }
                        else
                        {
                            dosed ??= occurrence.Happened.Latest;
                            residual = tested ?? residual;
                        }

                        break;
                    case VesselEmptied:
                        (dosed, residual) = (null, null);
                        break;
                    default:
                        break;
                }
            }

            if (dosed is not null)
            {
                return (vessel, dosed, residual);
            }
        }

        return (null, null, null);
    }

    private static Concentration? Milligrams(TypedNumber? number) =>
        number switch
        {
            { Unit: "mg/L{Cl2}", Value: >= 0 and <= 1e6 } => Concentration.FromMilligramsPerLitre(
                number.Value
            ),
            { Unit: "g/L{Cl2}", Value: >= 0 and <= 1e6 } => Concentration.FromGramsPerLitre(number.Value),
            _ => null,
        };
}
