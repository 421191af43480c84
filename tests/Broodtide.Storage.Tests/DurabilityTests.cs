using System.ComponentModel;
using System.Diagnostics;
using Broodtide.Durability;

namespace Broodtide.Storage.Tests;

/// <summary>A short form of <c>eng/durability</c>: ten sudden ends, ten power cuts, and the planted fault.</summary>
public sealed class DurabilityTests
{
    [Fact]
    public async Task Confirmed_entries_outlive_the_sudden_end_of_the_program()
    {
        var outcome = await new Proof(shim: null, seed: 1, isPlanted: false).KillAsync(10);
        Assert.Empty(outcome.Faults);
        Assert.True(outcome.Confirmed > 0);
    }

    [Fact]
    public async Task Confirmed_entries_outlive_a_power_cut_on_a_disk_that_forgets()
    {
        using var folder = new Folder();
        var outcome = await new Proof(Shim(folder), seed: 1, isPlanted: false).CutAsync(10);
        Assert.Empty(outcome.Faults);
        Assert.True(outcome.Confirmed > 0);
        Assert.True(outcome.UnsyncedWritesLost > 0);
    }

    [Fact]
    public async Task A_store_that_does_not_sync_is_found_out()
    {
        using var folder = new Folder();
        var outcome = await new Proof(Shim(folder), seed: 2, isPlanted: true).CutAsync(5);
        Assert.True(outcome.Lost > 0);
        Assert.NotEmpty(outcome.Faults);
    }

    private static string Shim(Folder folder)
    {
        if (!OperatingSystem.IsLinux())
        {
            Missing("the forgetting disk is a preloaded library, which needs Linux");
        }

        var shim = folder["lossy_disk.so"];
        try
        {
            using var compiler = Process.Start(
                "gcc",
                [
                    "-shared",
                    "-fPIC",
                    "-O2",
                    "-o",
                    shim,
                    Path.Combine(AppContext.BaseDirectory, "lossy_disk.c"),
                    "-ldl",
                    "-lpthread",
                ]
            );
            compiler.WaitForExit();
            Assert.Equal(0, compiler.ExitCode);
        }
        catch (Win32Exception)
        {
            Missing("gcc is not installed, so the forgetting disk cannot be built");
        }

        return shim;
    }

    private static void Missing(string reason)
    {
        Assert.False(Environment.GetEnvironmentVariable("CI") == "true", reason);
        Assert.Skip(reason);
    }
}
