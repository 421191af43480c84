using System.IO.Compression;
using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Dossiers;
using static Broodtide.Workbench.Tests.Dossiers.InventedDossiers;

namespace Broodtide.Workbench.Tests.Dossiers;

/// <summary>Packages that somebody changed, or made to do harm.</summary>
public class ForeignPackageTests
{
    private static async Task<List<PackedFile>> FilesAsync() =>
        [.. DossierPackage.Of(await OfAsync(), Engine)];

    private static string CodeOf(IReadOnlyList<PackedFile> files) =>
        ForeignPackage.Read(files).Reason?.Code ?? "taken";

    private static PackedFile Changed(PackedFile file, string was, string now) =>
        file with
        {
            Bytes = Encoding.UTF8.GetBytes(
                Encoding.UTF8.GetString(file.Bytes.Span) is var text
                && text.Contains(was, StringComparison.Ordinal)
                    ? text.Replace(was, now, StringComparison.Ordinal)
                    : throw new InvalidOperationException($"{was} is not in it.")
            ),
        };

    // The file and its hash in the descriptor together: somebody who knows how.
    private static void Replace(List<PackedFile> files, string path, byte[] bytes)
    {
        var at = files.FindIndex(file => file.Path == path);
        var now = new PackedFile(path, bytes);
        files[0] = new(files[0].Path, Changed(files[0], files[at].Sha256, now.Sha256).Bytes);
        files[at] = now with { Path = path.Replace(files[at].Sha256, now.Sha256, StringComparison.Ordinal) };
    }

    private static byte[] Zip(params (string Name, byte[] Bytes, int Attributes)[] entries)
    {
        using var packed = new MemoryStream();
        using (var zip = new ZipArchive(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, bytes, attributes) in entries)
            {
                var entry = zip.CreateEntry(name);
                entry.ExternalAttributes = attributes;
                using var stream = entry.Open();
                stream.Write(bytes);
            }
        }

        return packed.ToArray();
    }

    private static string CodeOfZip(byte[] bytes)
    {
        using var stream = new MemoryStream(bytes);
        return PackageZip.Read(stream, TestContext.Current.CancellationToken).Reason?.Code ?? "read";
    }

    [Fact]
    public async Task A_package_comes_through_a_zip_as_it_was()
    {
        var dossier = await OfAsync();
        var files = DossierPackage.Of(dossier, Engine);
        using var stream = new MemoryStream(PackageZip.Write(files));
        var read = ForeignPackage
            .Read(PackageZip.Read(stream, TestContext.Current.CancellationToken).Value)
            .Value;
        Assert.Equal(files[0].Sha256, read.Id);
        Assert.Equal(dossier.Title, read.Title);
        Assert.Equal(
            dossier.Entries.Select(entry => entry.Digest),
            read.Entries.Select(entry => entry.Digest)
        );
        var run = Assert.Single(read.Runs);
        Assert.Equal(dossier.Runs, [run.Run]);
        Assert.NotEmpty(run.Vessels());
        var look = run.Look();
        Assert.Equal(
            dossier.Outlook.EstimateOf(dossier.Outlook.PopulationOf(run.Brood)!).All.Alive,
            look.EstimateOf(look.PopulationOf(run.Brood)!).All.Alive
        );
    }

    [Fact]
    public async Task A_changed_byte_in_any_file_is_noticed()
    {
        var files = await FilesAsync();
        for (var at = 1; at < files.Count; at++)
        {
            var bytes = files[at].Bytes.ToArray();
            bytes[^2] ^= 1;
            var changed = files.ToList();
            changed[at] = new(files[at].Path, bytes);
            Assert.Equal("package-file-changed", CodeOf(changed));
        }
    }

    [Fact]
    public async Task A_missing_a_doubled_and_an_unnamed_file_are_refused()
    {
        var files = await FilesAsync();
        Assert.Equal(
            "package-file-missing",
            CodeOf([.. files.Where(file => file.Path != "tables/vessels.csv")])
        );
        Assert.Equal("package-without-descriptor", CodeOf([.. files.Skip(1)]));
        Assert.Equal("package-file-twice", CodeOf([.. files, new("TABLES/vessels.csv", new byte[] { 1 })]));
        Assert.Equal("package-file-not-named", CodeOf([.. files, new("more.html", new byte[] { 1 })]));
    }

    [Theory]
    [InlineData("../evil.csv")]
    [InlineData("/etc/evil")]
    [InlineData("tables/../../evil")]
    [InlineData("C:\\evil")]
    [InlineData("c:evil")]
    [InlineData("tables//evil")]
    [InlineData("tables/./evil")]
    [InlineData("~/evil")]
    [InlineData(".ssh/evil")]
    [InlineData("evil.")]
    [InlineData("con")]
    [InlineData("tables/NUL.csv")]
    [InlineData("com1.csv")]
    [InlineData("a\0b")]
    [InlineData("https://elsewhere.example/evil")]
    [InlineData("ta\u202ebles")]
    [InlineData("")]
    public async Task A_place_outside_the_package_is_refused_in_the_files_and_in_the_descriptor(string path)
    {
        Assert.Equal("package-path-unsafe", PackagePath.WrongWith(path)!.Code);
        var files = await FilesAsync();
        Assert.Equal("package-path-unsafe", CodeOf([.. files, new(path, new byte[] { 1 })]));
        if (!path.Contains('\0', StringComparison.Ordinal))
        {
            var escaped = path.Replace("\\", "\\\\", StringComparison.Ordinal);
            files[0] = new(files[0].Path, Changed(files[0], "tables/vessels.csv", escaped).Bytes);
            Assert.Equal("package-path-unsafe", CodeOf(files));
        }
    }

    [Fact]
    public void A_zip_that_leads_outside_or_holds_links_is_refused()
    {
        Assert.Equal("package-path-unsafe", CodeOfZip(Zip(("../evil", [1], 0))));
        Assert.Equal("package-path-unsafe", CodeOfZip(Zip(("/etc/evil/", [], 0))));
        // 0xA000: a symbolic link, in the upper half where Unix keeps the type of a file.
        Assert.Equal(
            "package-link",
            CodeOfZip(Zip(("link", "/etc/passwd"u8.ToArray(), unchecked((int)0xA1FF0000))))
        );
        Assert.Equal("package-not-zip", CodeOfZip("no zip at all"u8.ToArray()));
        Assert.Equal("package-not-zip", CodeOfZip(Zip(("a", new byte[100_000], 0))[..200]));
    }

    [Fact]
    public void A_zip_that_unpacks_without_end_is_given_up_early()
    {
        Assert.Equal("package-unpacks-too-far", CodeOfZip(Zip(("zeros", new byte[20_000_000], 0))));
        var many = Enumerable
            .Range(0, PackageLimits.MostFiles + 1)
            .Select(at => ($"f{at}", Array.Empty<byte>(), 0))
            .ToArray();
        Assert.Equal("package-too-many-files", CodeOfZip(Zip(many)));
    }

    [Fact]
    public async Task A_newer_dossier_and_what_is_no_dossier_are_said()
    {
        var files = await FilesAsync();
        var newer = ForeignPackage.Read([
            new(files[0].Path, Changed(files[0], "\"dossier\": 1", "\"dossier\": 2").Bytes),
            .. files.Skip(1),
        ]);
        Assert.Equal("package-newer", newer.Reason!.Code);
        Assert.Equal(2, newer.Reason["version"]);
        files[0] = new(files[0].Path, Changed(files[0], "\"broodtide\"", "\"other\"").Bytes);
        Assert.Equal("package-not-a-dossier", CodeOf(files));
        files[0] = new(files[0].Path, "{\"resources\": 7"u8.ToArray());
        Assert.Equal("package-descriptor-unreadable", CodeOf(files));
        files[0] = new(files[0].Path, "[]"u8.ToArray());
        Assert.Equal("package-not-a-dossier", CodeOf(files));
        files[0] = new(files[0].Path, "{\"broodtide\":{\"dossier\":1}}"u8.ToArray());
        Assert.Equal("package-descriptor-unreadable", CodeOf(files));
    }

    [Theory]
    [InlineData("\"toldFor\": \"2026", "\"toldFor\": \"soon", "package-member-wrong")]
    [InlineData("\"zone\": \"Etc/GMT-2\"", "\"zone\": \"Moon/Base\"", "package-member-wrong")]
    [InlineData("\"hash\": \"sha256:", "\"hush\": \"sha256:", "package-resource-without-hash")]
    [InlineData("\"name\": \"counts\"", "\"name\": \"vessels\"", "package-file-twice")]
    [InlineData("\"hash\": \"sha256:", "\"hash\": \"md5:", "package-file-changed")]
    public async Task A_spoilt_descriptor_is_refused(string was, string now, string code)
    {
        var files = await FilesAsync();
        files[0] = new(files[0].Path, Changed(files[0], was, now).Bytes);
        Assert.Equal(code, CodeOf(files));
    }

    [Fact]
    public async Task Entries_that_do_not_parse_and_runs_that_are_not_there_are_refused()
    {
        var dossier = await OfAsync();
        List<PackedFile> files = [.. DossierPackage.Of(dossier, Engine)];
        var journal = files.Single(file => file.Path == DossierPackage.JournalName);
        var lines = Encoding.UTF8.GetString(journal.Bytes.Span).Split('\n');
        var cut = files.ToList();
        Replace(cut, journal.Path, Encoding.UTF8.GetBytes(string.Join('\n', lines[..^3])));
        Assert.Equal("package-journal-unreadable", CodeOf(cut));
        var forged = files.ToList();
        Replace(forged, journal.Path, Changed(journal, "reading taken", "reading faked").Bytes.ToArray());
        Assert.Equal("package-journal-unreadable", CodeOf(forged));
        var noText = files.ToList();
        Replace(noText, journal.Path, [0xff, 0xfe, 0x00]);
        Assert.Equal("package-journal-unreadable", CodeOf(noText));
        files[0] = new(
            files[0].Path,
            Changed(files[0], $"\"{dossier.Runs[0].Value}\"", $"\"{Guid.Empty}\"").Bytes
        );
        Assert.Equal("package-run-missing", CodeOf(files));
    }

    [Fact]
    public async Task A_photo_that_is_a_page_with_a_script_is_refused()
    {
        var files = await FilesAsync();
        var photo = files.Single(file => file.Path.StartsWith("photos/", StringComparison.Ordinal));
        Replace(files, photo.Path, "<script>alert(1)</script>"u8.ToArray());
        Assert.Equal("package-photo-is-none", CodeOf(files));
    }

    [Fact]
    public async Task A_script_in_a_name_stays_a_text()
    {
        const string script = "<script>alert('x')</script>";
        var house = await HouseAsync();
        var run = house.Runs.Single(run => run.Name == "Brood 2");
        var jar = house.VesselsOf(run.Brood!.Value).First().Id;
        var keeper = new Recording.Keeper(
            new Author("k"),
            new NodaTime.Testing.FakeClock(Now - NodaTime.Duration.FromHours(1)),
            KeptJournal.Zone,
            Guid.CreateVersion7
        );
        await using var journal = new Recording.MemoryJournal(new(Guid.CreateVersion7()));
        var renamed = await journal.AppendAsync(
            [keeper.Write(new VesselSetUp(jar, script, VesselRole.LarvalVessel))],
            TestContext.Current.CancellationToken
        );
        house.Account.AddAll(renamed);
        var dossier = Of(new Domain.House(house.Account), new DossierChoice { Names = true });
        var read = ForeignPackage.Read(DossierPackage.Of(dossier, Engine)).Value;
        Assert.Equal(script, read.Runs[0].House.Vessel(jar).Name);
    }

    [Fact]
    public async Task The_numbers_of_a_package_come_out_again_and_a_number_made_better_is_told_with_its_row()
    {
        List<PackedFile> files = [.. DossierPackage.Of(await OfAsync(), Engine)];
        var right = Recomputing.Of(ForeignPackage.Read(files).Value).Value;
        Assert.True(right.Numbers > 1000);
        Assert.Equal(0, right.Different);
        var table = files.Single(file => file.Path == Recomputing.TableName);
        var text = Encoding.UTF8.GetString(table.Bytes.Span);
        var at = text.IndexOf(",1,false", StringComparison.Ordinal);
        Replace(files, table.Path, Encoding.UTF8.GetBytes(text.Insert(at, "9")));
        var better = Recomputing.Of(ForeignPackage.Read(files).Value).Value;
        Assert.Equal(1, better.Different);
        Assert.Equal(2, better.First!["row"]);
        var without = files.Where(file => file.Path != table.Path).ToList();
        var descriptor = Encoding.UTF8.GetString(files[0].Bytes.Span);
        Assert.Contains(table.Path, descriptor, StringComparison.Ordinal);
        Assert.Equal("package-file-missing", CodeOf(without));
    }
}
