using System.Collections.Immutable;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.WhatIf;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.BadDays;

/// <summary>What one vessel wants of a helper, how it goes with that, and how it goes if nobody comes.</summary>
internal static class AwayTending
{
    // Chance of passing a limit from which a dose is halved, and how often; then none is given. This project's choice.
    private const double Bearable = 0.2;

    private const int MostHalvings = 2;

    public static IEnumerable<AwayVessel?> Of(Outlook outlook, Vessel vessel, int lead, int days)
    {
        var ledger = outlook.LedgerOf(vessel.Id);
        var topUp = ledger
            is { EvaporationMillilitresPerDay.Middle: > AwayDoses.LeastMillilitres and var lost }
            ? 5 * Math.Round(lost / 5)
            : 0;
        var plain = new AwayVessel
        {
            Vessel = vessel.Id,
            TopUpMillilitresPerDay = topUp,
            LeavesBand = ledger?.Leaving is { } leaving ? leaving.Middle ?? leaving.Earliest : null,
            Portions = [],
            Remarks = [],
        };
        if (vessel.Role is VesselRole.AlgaeCulture)
        {
            yield return plain with
            {
                Remarks =
                [
                    new Remark(
                        days <= AwayFasting.MostDays ? "badday-away-culture" : "badday-away-culture-long"
                    ),
                ],
            };
            yield break;
        }

        if (outlook.AdviceAtHand(vessel.Id) is not { } advice)
        {
            yield return AwayFasting.Unadvised(plain, vessel, days);
            yield break;
        }

        Parsed<WhatIfGround>? found = null;
        foreach (var piece in WhatIfGrounds.InPieces(outlook, vessel.Id, Math.Min(60, lead + days)))
        {
            found = piece;
            yield return null;
        }

        if (found is not { Succeeded: true, Value: var ground })
        {
            yield return plain with
            {
                Portions = [.. AwayDoses.Of(outlook, advice, null, 1)],
            };
            yield break;
        }

        WhatIfAnswer? left = null;
        foreach (
            var piece in WhatIfRun.InPieces(ground, [new WhatIfChange.Skipped(Math.Min(ground.Days, days))])
        )
        {
            left = piece;
            yield return null;
        }

        var factor = 1.0;
        for (var halved = 0; ; halved++)
        {
            ImmutableArray<AwayPortion> portions = [.. AwayDoses.Of(outlook, advice, ground, factor)];
            WhatIfAnswer? tended = null;
            foreach (var piece in WhatIfRun.InPieces(ground, AwayDoses.AsChanges(outlook, ground, portions)))
            {
                tended = piece;
                yield return null;
            }

            var worst = tended!.Limits.Select(limit => limit.Changed.Value).DefaultIfEmpty(0).Max();
            var unfed = left!.Limits.Select(limit => limit.Changed.Value).DefaultIfEmpty(0).Max();
            // Food is not to blame where the water is as bad without it.
            if (portions.IsEmpty || worst < Bearable || worst <= unfed + 0.05 || halved > MostHalvings)
            {
                yield return plain with
                {
                    Portions = portions,
                    AliveTended = Alive(tended, changed: true),
                    AliveLeft = Alive(left, changed: true),
                    FoulsTended = Chance(tended, WhatIfQuantity.UnionisedAmmonia),
                    ChokesTended = Chance(tended, WhatIfQuantity.Oxygen),
                    Remarks =
                    [
                        .. halved > 0 ? [new Remark("badday-away-doses-halved")] : Array.Empty<Remark>(),
                        .. portions.IsEmpty ? [new Remark("badday-away-no-food")] : Array.Empty<Remark>(),
                    ],
                };
                yield break;
            }

            factor = halved == MostHalvings ? 0 : factor / 2;
        }
    }

    private static Interval? Alive(WhatIfAnswer answer, bool changed) =>
        answer.Figures.FirstOrDefault(figure => figure.Quantity is WhatIfQuantity.Alive) is { } figure
            ? changed
                ? figure.Changed
                : figure.AsItIs
            : null;

    private static Probability? Chance(WhatIfAnswer answer, WhatIfQuantity quantity) =>
        answer.Limits.FirstOrDefault(limit => limit.Quantity == quantity)?.Changed;
}
