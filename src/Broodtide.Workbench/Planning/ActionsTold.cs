using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>What the keeper wrote of actions: done, or left out.</summary>
internal sealed class ActionsTold
{
    private readonly Dictionary<string, (ActionState State, Instant? When)> _told = new(
        StringComparer.Ordinal
    );

    private ActionsTold() { }

    public static ActionsTold Of(House house, Instant now)
    {
        var told = new ActionsTold();
        foreach (var occurrence in house.Account.About(Subject.House))
        {
            switch (occurrence.Fact)
            {
                case ActionDone done:
                    told._told[done.Action] = (ActionState.Done, occurrence.Happened.Latest);
                    break;
                case ActionSkipped skipped when skipped.Until is not { } until || until > now:
                    told._told[skipped.Action] = (ActionState.Skipped, skipped.Until);
                    break;
                case ActionSkipped skipped
                    when told._told.GetValueOrDefault(skipped.Action).State is ActionState.Skipped:
                    // Put off for good before, now only until an instant that has passed: it is asked for again.
                    told._told.Remove(skipped.Action);
                    break;
                default:
                    break;
            }
        }

        return told;
    }

    /// <summary>The actions as they stand: told ones closed, others waiting for what must come before.</summary>
    public IReadOnlyList<PlannedAction> Settle(IEnumerable<PlannedAction> actions)
    {
        var settled = actions.Select(Told).ToList();
        var open = settled
            .Where(action => action.IsOpen)
            .Select(action => action.Key)
            .ToHashSet(StringComparer.Ordinal);
        return
        [
            .. settled.Select(action =>
                action.State is ActionState.Open && action.After.Any(open.Contains)
                    ? action with
                    {
                        State = ActionState.Waits,
                    }
                    : action
            ),
        ];
    }

    private PlannedAction Told(PlannedAction action) =>
        action.IsOpen && _told.TryGetValue(action.Key, out var told)
            ? action with
            {
                State = told.State,
                StateSince = told.When,
            }
            : action;
}
