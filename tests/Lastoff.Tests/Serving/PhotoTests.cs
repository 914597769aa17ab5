using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Program;
using Lastoff.Tests.Storing;

namespace Lastoff.Tests.Serving;

/// <summary>Photos before the real server on either store: in pieces, through cuts, and nothing but photos.</summary>
public abstract class PhotoTests(IReadOnlyList<string> store) : IAsyncLifetime
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    /// <summary>Written by Chromium.</summary>
    private static readonly byte[] Flange = File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "data", "photos", "flange.jpg"));

    private RunningServer _server = null!;

    public async ValueTask InitializeAsync() => _server = await RunningServer.Start(store);

    public ValueTask DisposeAsync() => _server.DisposeAsync();

    [Fact]
    public async Task A_photo_goes_on_after_cuts_and_a_killed_server_where_it_stopped_and_is_there_only_when_whole()
    {
        var hash = HashOf(Flange);
        Assert.Equal((0, false), await Arrived(hash));
        Assert.Equal((1000, false), await Sent(hash, 0, 1000));
        Assert.Equal(HttpStatusCode.NotFound, (await _server.Client.GetAsync($"/api/photos/{hash}", Cancel)).StatusCode);

        // The answer was lost, and the piece comes again; then one that would leave a hole.
        Assert.Equal((2000, false), await Sent(hash, 1000, 2000));
        Assert.Equal((2000, false), await Sent(hash, 1000, 2000));
        Assert.Equal((2000, false), await Sent(hash, 2500, 3000));

        await _server.KillAndRestart();
        Assert.Equal((2000, false), await Arrived(hash));
        Assert.True((await Sent(hash, 2000, Flange.Length)).IsWhole);
        Assert.True((await Sent(hash, 0, 100)).IsWhole);

        await _server.KillAndRestart();
        var answer = await _server.Client.GetAsync($"/api/photos/{hash}", Cancel);
        Assert.Equal(Flange, await answer.Content.ReadAsByteArrayAsync(Cancel));
        Assert.Equal("image/jpeg", answer.Content.Headers.ContentType!.ToString());
        Assert.Contains("sandbox", answer.Headers.GetValues("Content-Security-Policy").Single());
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
    }

    [Fact]
    public async Task What_is_begun_can_be_begun_anew()
    {
        var hash = HashOf(Flange);
        await Send(hash, Flange.Length, 0, [.. Enumerable.Repeat((byte)7, 3000)]);
        Assert.Equal((3000, false), await Arrived(hash));
        await Sent(hash, 0, 1000);
        Assert.True((await Sent(hash, 1000, Flange.Length)).IsWhole);
    }

    [Fact]
    public async Task Two_devices_that_send_the_same_photo_at_once_do_not_harm_it()
    {
        var hash = HashOf(Flange);
        async Task SendAll()
        {
            var (have, isWhole) = await Arrived(hash);
            for (var tries = 0; !isWhole && tries < 200; tries++)
            {
                var from = have < Flange.Length ? (int)have : 0;
                var answer = await Send(hash, Flange.Length, from, Flange[from..Math.Min(from + 500, Flange.Length)]);
                // What the other has begun anew in between can come out as another file; then it is sent again.
                (have, isWhole) = answer.StatusCode == HttpStatusCode.BadRequest ? await Arrived(hash) : await Of(answer);
            }

            Assert.True(isWhole);
        }

        await Task.WhenAll(SendAll(), SendAll());
        Assert.Equal(Flange, await _server.Client.GetByteArrayAsync($"/api/photos/{hash}", Cancel));
    }

    private static readonly (string What, byte[] File)[] NoPhotos =
    [
        ("text", "not a photo"u8.ToArray()),
        ("a page", "<html><script>alert(1)</script></html>"u8.ToArray()),
        ("a drawing with a script", "<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>"u8.ToArray()),
        // The smallest GIF, one pixel (the well-known 26 bytes, from memory).
        ("a GIF", Convert.FromHexString("47494638396101000100800000FFFFFF00000021F90401000000002C00000000010001000002024401003B")),
        ("the first bytes of a JPEG alone", [0xFF, 0xD8, 0xFF, 0xE0]),
        ("a photo cut short", Flange[..^900]),
        ("a photo with a page behind it", [.. Flange, .. "<script>alert(1)</script>"u8]),
        ("a photo whose code tables count more codes than there are", WrongTables()),
        ("a photo that claims to be huge", Sized(60000, 60000)),
        ("a photo of no height", Sized(320, 0)),
    ];

    [Fact]
    public async Task What_is_no_photo_is_not_kept()
    {
        foreach (var (what, file) in NoPhotos)
        {
            var answer = await Send(HashOf(file), file.Length, 0, file);
            Assert.True(answer.StatusCode == HttpStatusCode.BadRequest, what);
            Assert.Contains("not kept as a photo", (string)(await answer.Content.ReadFromJsonAsync<JsonNode>(Cancel))!["detail"]!);
            Assert.Equal(HttpStatusCode.NotFound, (await _server.Client.GetAsync($"/api/photos/{HashOf(file)}", Cancel)).StatusCode);
            Assert.Equal((0, false), await Arrived(HashOf(file)));
        }
    }

    [Fact]
    public async Task A_photo_under_another_name_or_with_a_name_that_is_none_is_not_kept()
    {
        var other = HashOf("another"u8.ToArray());
        Assert.Equal(HttpStatusCode.BadRequest, (await Send(other, Flange.Length, 0, Flange)).StatusCode);
        Assert.Equal((0, false), await Arrived(other));
        foreach (var name in new[] { "..%2F..%2Flastoff.db", "..", HashOf(Flange).ToUpperInvariant(), HashOf(Flange)[1..], HashOf(Flange) + ".jpg", "%00" })
        {
            var answer = await Send(name, Flange.Length, 0, Flange);
            Assert.True((int)answer.StatusCode is >= 400 and < 500, $"{name}: {answer.StatusCode}");
            Assert.True((int)(await _server.Client.GetAsync($"/api/photos/{name}", Cancel)).StatusCode is >= 400 and < 500, name);
        }

        if (store.Count == 0)
        {
            Assert.Empty(Directory.EnumerateFiles(_server.Data, "*.jpg", SearchOption.AllDirectories));
        }
    }

    [Fact]
    public async Task A_piece_that_does_not_say_rightly_what_it_is_is_refused()
    {
        foreach (var range in (string?[])["bytes 0-9/5", "bytes 0-9/*", "bytes */10", "bytes 0-99999999999999999999/100", "bytes 0-9/5000000", "bytes 0-4/10", "lines 0-9/10", null])
        {
            using var request = new HttpRequestMessage(HttpMethod.Put, $"/api/photos/{HashOf(Flange)}") { Content = new ByteArrayContent(Flange[..10]) };
            if (range is not null)
            {
                Assert.True(request.Content.Headers.TryAddWithoutValidation("Content-Range", range));
            }

            var answer = await _server.Client.SendAsync(request, Cancel);
            Assert.True(answer.StatusCode == HttpStatusCode.BadRequest, range);
            Assert.Equal((0, false), await Arrived(HashOf(Flange)));
        }
    }

    [Fact]
    public async Task Photos_are_looked_through_and_move_with_their_workshop()
    {
        var hash = HashOf(Flange);
        var job = (string)(await _server.Client.GetFromJsonAsync<JsonArray>("/api/jobs", Cancel))![0]!["id"]!;
        var ledger = LedgerFile.Read(await _server.Client.GetStringAsync($"/api/jobs/{job}/ledger", Cancel), "server").Entries;
        var map = (string)ledger[0].Data.GetProperty("map").GetString()!;
        var net = OperationNet.From(MapReader.Read(await _server.Client.GetStringAsync($"/api/maps/{map}", Cancel), map).Map!);
        // Its small one is still on the phone.
        var taken = Job.From(net, ledger).Decide(new PhotoTaken(hash, HashOf("small"u8.ToArray())), new Pen("device-of-a-test", "Tester", DateTimeOffset.UtcNow, new byte[10])).Entry!;
        (await _server.Client.PostAsync($"/api/jobs/{job}/entries", new StringContent(taken.Line), Cancel)).EnsureSuccessStatusCode();
        Assert.Contains("Photo files as they were taken: 0. Not here: 2", await Succeeds(["verify", .. Where]));
        await Sent(hash, 0, Flange.Length);
        Assert.Contains("Photo files as they were taken: 1. Not here: 1", await Succeeds(["verify", .. Where]));

        using var folder = new TemporaryFolder();
        foreach (var target in new[] { folder.In("files"), folder.In("files.zip") })
        {
            var moved = folder.In("moved " + Path.GetFileName(target));
            Assert.Contains("Photo files: 1, and 1 more that are named", await Succeeds(["export", target, .. Where]));
            Assert.Contains("1 photo files", await Succeeds(["import", target, "--data", moved]));
            Assert.Contains("0 photo files", await Succeeds(["import", target, "--data", moved]));
            Assert.Equal(Flange, await File.ReadAllBytesAsync(Path.Combine(moved, "photos", $"{hash}.jpg"), Cancel));
            await File.WriteAllBytesAsync(Path.Combine(moved, "photos", $"{hash}.jpg"), [.. Flange, 0], Cancel);
            foreach (string[] command in (string[][])[["verify"], ["export", folder.In("again")]])
            {
                var refused = await LastoffProgram.Run([.. command, "--data", moved]);
                Assert.Equal(2, refused.ExitCode);
                Assert.Contains($"the photo {hash} was changed", refused.Error);
            }
        }

        await File.WriteAllBytesAsync(folder.In($"files/photos/{hash}.jpg"), WrongTables(), Cancel);
        var broken = await LastoffProgram.Run("import", folder.In("files"), "--data", folder.In("other"));
        Assert.Equal(2, broken.ExitCode);
        Assert.Contains($"{hash}.jpg: This is not kept as a photo", broken.Error);
    }

    private IReadOnlyList<string> Where => store.Count > 0 ? store : ["--data", _server.Data];

    private static async Task<string> Succeeds(IReadOnlyList<string> arguments)
    {
        var run = await LastoffProgram.Run([.. arguments]);
        Assert.True(run.ExitCode == 0, run.Error);
        return run.Output;
    }

    private static string HashOf(byte[] file) => Convert.ToHexStringLower(SHA256.HashData(file));

    /// <summary>The counts of a Huffman table are the 16 bytes after marker, length and class (ITU-T T.81, B.2.4.2).</summary>
    private static byte[] WrongTables()
    {
        byte[] file = [.. Flange];
        file.AsSpan(file.AsSpan().IndexOf([(byte)0xFF, (byte)0xC4]) + 5, 16).Fill(0xFF);
        return file;
    }

    /// <summary>The photo with another size in its frame header (ITU-T T.81, B.2.2: marker, length, precision, then lines and samples in two bytes each).</summary>
    private static byte[] Sized(int width, int height)
    {
        byte[] file = [.. Flange];
        var frame = file.AsSpan().IndexOf([(byte)0xFF, (byte)0xC0]);
        (file[frame + 5], file[frame + 6], file[frame + 7], file[frame + 8]) = ((byte)(height >> 8), (byte)height, (byte)(width >> 8), (byte)width);
        return file;
    }

    [Fact]
    public async Task Of_many_photos_those_that_are_here_whole_are_told_and_what_names_none_is_refused()
    {
        var (hash, other) = (HashOf(Flange), new string('0', 64));
        await Sent(hash, 0, 10);
        Assert.Empty(await Whole(hash, other));
        await Sent(hash, 10, Flange.Length);
        Assert.Equal([hash], await Whole(hash, other));
        foreach (var wrong in new[] { "", "?of=", $"?of={hash.ToUpperInvariant()}", "?of=../../etc/passwd", $"?of={string.Join(',', Enumerable.Repeat(other, 61))}" })
        {
            var answer = await _server.Client.GetAsync($"/api/photos/arrived{wrong}", Cancel);
            Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
            Assert.Contains("at most 60 at once", await answer.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        }

        async Task<string[]> Whole(params string[] hashes) => (await _server.Client.GetFromJsonAsync<string[]>($"/api/photos/arrived?of={string.Join(',', hashes)}", Cancel))!;
    }

    private async Task<(long Bytes, bool IsWhole)> Sent(string hash, int from, int to) => await Of(await Send(hash, Flange.Length, from, Flange[from..to]));

    private Task<HttpResponseMessage> Send(string hash, int of, int from, byte[] piece)
    {
        var content = new ByteArrayContent(piece);
        content.Headers.ContentRange = new ContentRangeHeaderValue(from, from + piece.Length - 1, of);
        return _server.Client.PutAsync($"/api/photos/{hash}", content, Cancel);
    }

    private async Task<(long Bytes, bool IsWhole)> Arrived(string hash) => await Of(await _server.Client.GetAsync($"/api/photos/{hash}/arrived", Cancel));

    private static async Task<(long, bool)> Of(HttpResponseMessage answer)
    {
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var said = (await answer.Content.ReadFromJsonAsync<JsonNode>(Cancel))!;
        return ((long)said["bytes"]!, (bool)said["isWhole"]!);
    }
}

public sealed class PhotosOnSqliteTests() : PhotoTests([]);

public sealed class PhotosOnPostgresTests() : PhotoTests(TestPostgres.NewWorkshop());
