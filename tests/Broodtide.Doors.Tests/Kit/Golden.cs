namespace Broodtide.Doors.Tests.Kit;

/// <summary>
/// Compares a text with the file kept for it. BROODTIDE_GOLDEN names a folder to write into instead, for whoever
/// has looked at the difference and wants it.
/// </summary>
internal static class Golden
{
    public static void Holds(string name, string text)
    {
        if (Environment.GetEnvironmentVariable("BROODTIDE_GOLDEN") is { Length: > 0 } folder)
        {
            Directory.CreateDirectory(folder);
            File.WriteAllText(Path.Combine(folder, name), text);
            return;
        }

        var kept = Path.Combine(AppContext.BaseDirectory, "Golden", name);
        Assert.True(File.Exists(kept), $"No golden file {name} is kept.");
        Assert.Equal(File.ReadAllText(kept), text);
    }
}
