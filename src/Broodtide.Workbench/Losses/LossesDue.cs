using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.Losses;

/// <summary>What is due after a run was given up: samples first, cleaning not before settlement is past, one thing to change.</summary>
internal static class LossesDue
{
    private static readonly Duration StillAsked = Duration.FromDays(14);

    public static IEnumerable<PlannedAction> Of(Outlook outlook)
    {
        foreach (var run in outlook.House.Runs)
        {
            if (
                run.Ended is not { How.End: RunEnd.GivenUp } ended
                || run.Brood is not { } brood
                || ended.When.Latest > outlook.Now
            )
            {
                continue;
            }

            var at = ended.When.Latest;
            var waters = LossWaters.Of(outlook, brood);
            var latest = waters.Latest;
            var clean = latest is { } last && last > at ? last : at;
            if (outlook.Now < at + StillAsked)
            {
                yield return Make(ActionCodes.KeepSamples, run, at, at + Duration.FromHours(6)) with
                {
                    SlipsUntil = at + Duration.FromDays(2),
                    Reason = new Remark("loss-samples-answer-later"),
                    IfItSlips = new Remark("slip-nobody-can-look-any-more"),
                };
                yield return Make(ActionCodes.ChangeOneThing, run, at, at + Duration.FromDays(7)) with
                {
                    SlipsUntil = at + StillAsked,
                    Reason = new Remark("loss-one-thing-at-a-time"),
                    IfItSlips = new Remark("slip-the-same-again"),
                };
            }

            if (!waters.AnyLive && outlook.Now < clean + StillAsked)
            {
                yield return Make(ActionCodes.CleanAfterLoss, run, clean, clean + Duration.FromDays(3)) with
                {
                    SlipsUntil = clean + StillAsked,
                    Reason =
                        clean > at
                            ? new Remark(
                                outlook.Now < clean ? "loss-some-may-still-settle" : "loss-look-then-clean",
                                new Argument("latest", clean.InZone(outlook.Zone).Date)
                            )
                            : new Remark("loss-clean-and-dry"),
                    IfItSlips = new Remark("slip-the-next-run-inherits-it"),
                    Cautions = [CautionCode.BleachAndAcids, CautionCode.NoRelease, CautionCode.Glass],
                };
            }
        }
    }

    private static PlannedAction Make(string code, Run run, Instant from, Instant by) =>
        new()
        {
            Key = ActionKey.Of(code, Subject.Of(run.Id)),
            Code = code,
            About = Subject.Of(run.Id),
            From = from,
            By = by,
            Reason = new Remark(code),
            Door = new(DoorCode.AfterLoss, Subject.Of(run.Id)),
        };
}
