using Broodtide.Domain.Journal;

namespace Broodtide.Domain.Tests.Kit;

/// <summary>Everything that an account says, as lines.</summary>
internal static class AccountText
{
    /// <summary>What it tells, in the form of <see cref="NaiveAccount.Tell"/>.</summary>
    public static List<string> Tell(Account account) =>
        [
            .. account.Occurrences.Select(o =>
                $"{o.Told.Digest} {o.First.Digest} {o.HasRivals} {o.Told.HasBody}"
            ),
        ];

    /// <summary>All of it: what it tells, how every entry stands, conflicts, subjects.</summary>
    public static List<string> All(Account account) =>
        [
            .. Tell(account),
            $"entries {account.EntryCount} unknown {account.UnknownCount}",
            .. account
                .Entries.OrderBy(entry => entry.Digest)
                .Select(entry =>
                    $"{entry.Digest} {account.StandingOf(entry)} {entry.Fact} < "
                    + string.Join(' ', account.CorrectionsOf(entry.Id).Select(c => c.Digest))
                ),
            .. account.Conflicts().Select(conflict => conflict.ToString()),
            .. Enum.GetValues<SubjectKind>()
                .SelectMany(kind => account.Subjects(kind).Select(id => new Subject(kind, id)))
                .Select(subject => $"{subject} {string.Join(' ', account.About(subject).Select(o => o.Id))}"),
        ];
}
