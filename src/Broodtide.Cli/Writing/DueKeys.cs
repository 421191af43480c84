using Broodtide.Cli.Door;
using Broodtide.Units;
using Broodtide.Workbench;

namespace Broodtide.Cli.Writing;

/// <summary>
/// Keys of actions as they are shown: what, the last figures of the thing it is for, the occasion. The journal holds
/// the whole key.
/// </summary>
internal static class DueKeys
{
    public static string Short(string key)
    {
        var parts = key.Split('/');
        return parts.Length == 3 && parts[1].Length > 6 ? $"{parts[0]}/{parts[1][^6..]}/{parts[2]}" : key;
    }

    public static string Find(Said said, Slot slot)
    {
        var typed = said.TheText(slot);
        var known = Keys(said.Sitting.Looked).Distinct(StringComparer.Ordinal).ToList();
        var found = known.Where(key => key == typed || Short(key) == typed).Take(2).ToList();
        if (found.Count == 1)
        {
            return found[0];
        }

        said.Add(
            new Remark(
                "action-unknown",
                new("typed", typed),
                new("known", string.Join(", ", known.Select(Short).Order(StringComparer.Ordinal)))
            )
        );
        return typed;
    }

    private static IEnumerable<string> Keys(Outlook outlook) =>
        outlook
            .Plans.SelectMany(plan => plan.Actions)
            .Concat(outlook.Due.Items.Select(item => item.Action))
            .Select(action => action.Key);
}
