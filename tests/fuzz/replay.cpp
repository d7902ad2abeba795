// A fuzz target run without a fuzzer: over its kept corpus, and over seeded changes of it. Built by any compiler, so that
// all tests have a look at hostile input; the fuzz preset looks longer, and where the code leads it.
//   fuzz_csv CORPUS COUNT [SEED]
#include <algorithm>
#include <cstdio>
#include <random>

#include "base/base.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

namespace fs = std::filesystem;

constexpr std::size_t longest = 1 << 16;  // bytes of a changed input: more is slow and shows no more

std::vector<std::string> inputs_in(const fs::path& corpus) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(corpus)) files.push_back(entry.path());
  std::ranges::sort(files);  // the order of a folder is chance
  std::vector<std::string> inputs{""};
  for (const fs::path& file : files) inputs.push_back(*ordinatio::read_file(file));
  return inputs;
}

class Changes {
 public:
  explicit Changes(unsigned seed) : random_(seed) {}
  std::size_t below(std::size_t limit) { return limit == 0 ? 0 : random_() % limit; }

  /// One to eight changes: a byte, a bit, a piece left out, doubled, or taken from another input.
  std::string changed(std::string input, const std::string& other) {
    for (std::size_t left = 1 + below(8); left > 0; --left) {
      const std::size_t at = below(input.size() + 1), length = below(std::min<std::size_t>(32, input.size() - at) + 1);
      switch (below(5)) {
        case 0:
          if (at < input.size()) input[at] = static_cast<char>(below(256));
          break;
        case 1:
          if (at < input.size()) input[at] = static_cast<char>(input[at] ^ (1 << below(8)));
          break;
        case 2:
          input.erase(at, length);
          break;
        case 3:
          input.insert(at, input.substr(at, length));
          break;
        default:
          const std::size_t from = below(other.size() + 1);
          input.insert(at, other.substr(from, below(64)));
      }
    }
    input.resize(std::min(input.size(), longest));
    return input;
  }

 private:
  std::mt19937 random_;
};

void run(const std::string& input) {
  // Exactly as long as it is: the sanitizer sees what is read beyond it.
  const std::vector<std::uint8_t> bytes(input.begin(), input.end());
  LLVMFuzzerTestOneInput(bytes.data(), bytes.size());
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) return std::fprintf(stderr, "CORPUS COUNT [SEED]\n"), 2;
  const std::vector<std::string> inputs = inputs_in(argv[1]);
  const int count = std::stoi(argv[2]);
  const auto seed = static_cast<unsigned>(argc > 3 ? std::stoul(argv[3]) : 1874);
  Changes changes(seed);
  for (const std::string& input : inputs) run(input);
  for (int i = 0; i < count; ++i) {
    const std::string& input = inputs[changes.below(inputs.size())];
    const std::string& other = inputs[changes.below(inputs.size())];
    run(changes.changed(input, other));
  }
  std::printf("%zu inputs and %d changes of them, seed %u\n", inputs.size(), count, seed);
  return 0;
}
