namespace Broodtide.Speed;

/// <summary>The laws of all works that a keeper waits for.</summary>
internal static class CostLaws
{
    public static void Run(bool quick)
    {
        Told.Title(
            "COST LAWS: processor time at 1x, 10x, 100x; exponent; most memory beyond what stood before"
        );
        ScienceLaws.Run();
        PictureLaws.Run();
        JournalLaws.Run(quick ? 20_000 : 50_000);
        SyncLaws.Run(quick ? 20_000 : 50_000);
    }
}
