namespace Broodtide.Durability.Works;

/// <summary>
/// Writes entries in batches. Opened again and again, so that recovery, write-back and removal of the log are under test too.
/// </summary>
internal sealed class AppendWork : Work
{
    public override string Name => "append";

    public override int MostLines => 50;

    public override int MostChanges => 2500;

    public override async Task RoundAsync(Bench bench)
    {
        await using var journal = await Batches.OpenAsync(bench);
        for (var i = bench.Random.Next(1, bench.Most + 1); i > 0; i--)
        {
            await bench.Say(
                Batches.Said(await journal.AppendAsync(Batches.Drafts(bench.Random, bench.Random.Next(1, 4))))
            );
        }
    }

    public override Look NewLook() => new JournalLook();
}
